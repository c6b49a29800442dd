//! Materials at many frequencies, a register at a time: the twin of [`Material::medium`].

use std::f64::consts::PI;

use num_complex::Complex64;

use super::{
    Conductivity, Material, Medium, POWER_LAW_UNIT_HZ, Permeability, PermeabilityTable, Permittivity, PowerLaw,
};
use crate::constants::VACUUM_PERMITTIVITY;
use crate::lanes::{Complex, Real, Simd};

/// Tables with more rows than this are looked up lane by lane.
const ROWS_IN_LANES: usize = 12;

/// Frequencies, with what several layers need of them.
#[derive(Clone, Copy)]
pub(crate) struct FrequencyLanes<S: Simd> {
    pub(crate) hz: Real<S>,
    pub(crate) over_hz: Real<S>,
    /// ln(f / 1 GHz); only there where a power law asks for it.
    pub(crate) ln_ghz: Real<S>,
}

impl<S: Simd> FrequencyLanes<S> {
    #[inline(always)]
    pub(crate) fn new(hz: Real<S>, with_power_laws: bool) -> Self {
        let ln_ghz = if with_power_laws { (hz * (1.0 / POWER_LAW_UNIT_HZ)).ln() } else { hz };
        Self { hz, over_hz: 1.0 / hz, ln_ghz }
    }
}

/// What a wave meets, by [`Medium`].
#[derive(Clone, Copy)]
pub(crate) struct MediumLanes<S: Simd> {
    pub(crate) permittivity: Complex<S>,
    pub(crate) permeability: PermeabilityRegister<S>,
}

/// A relative permeability, which most often is one real number for all frequencies.
#[derive(Clone, Copy)]
pub(crate) enum PermeabilityRegister<S: Simd> {
    Real(f64),
    Complex(Complex<S>),
}

impl<S: Simd> PermeabilityRegister<S> {
    #[inline(always)]
    pub(crate) fn times(self, other: Complex<S>) -> Complex<S> {
        match self {
            Self::Real(value) => other.scale(other.re.constant(value)),
            Self::Complex(value) => value * other,
        }
    }

    /// `other` over the permeability.
    #[inline(always)]
    pub(crate) fn divide(self, other: Complex<S>) -> Complex<S> {
        match self {
            Self::Real(value) => other.scale(other.re.constant(1.0 / value)),
            Self::Complex(value) => other / value,
        }
    }
}

/// A material prepared for evaluation in lanes.
#[derive(Clone, Debug)]
pub(crate) struct MaterialLanes<'a> {
    material: &'a Material,
    permeability: PermeabilityLanes<'a>,
}

#[derive(Clone, Debug)]
enum PermeabilityLanes<'a> {
    Constant(f64),
    Relaxing { excess: f64, over_relaxation_hz: f64 },
    Joined(Vec<Stretch>),
    LookedUp(&'a PermeabilityTable),
}

/// From one row of a table to the next.
#[derive(Clone, Copy, Debug)]
struct Stretch {
    from_hz: f64,
    over_from_hz: f64,
    value: Complex64,
    /// Change for each unit of ln f; zero beyond the last row.
    slope: Complex64,
}

impl<'a> MaterialLanes<'a> {
    pub(crate) fn new(material: &'a Material) -> Self {
        let permeability = match &material.permeability {
            Permeability::Constant(value) => PermeabilityLanes::Constant(*value),
            Permeability::Relaxing { initial, relaxation_hz } => {
                PermeabilityLanes::Relaxing { excess: initial - 1.0, over_relaxation_hz: 1.0 / relaxation_hz }
            }
            Permeability::Tabulated(table) if table.frequency_hz().len() <= ROWS_IN_LANES => {
                PermeabilityLanes::Joined(stretches(table))
            }
            Permeability::Tabulated(table) => PermeabilityLanes::LookedUp(table),
        };
        Self { material, permeability }
    }

    /// Whether it follows a power law of frequency.
    pub(crate) fn has_power_law(&self) -> bool {
        matches!(self.material.conductivity, Conductivity::PowerLaw(law) if law.exponent != 0.0)
            || matches!(self.material.permittivity, Permittivity::PowerLaw(law) if law.exponent != 0.0)
    }

    /// The medium where it is the same at every frequency.
    pub(crate) fn dispersionless(&self) -> Option<Medium> {
        let Material { conductivity, permittivity, permeability, .. } = self.material;
        match (conductivity, permittivity, permeability) {
            (Conductivity::Constant(0.0), Permittivity::Constant { .. }, Permeability::Constant(_)) => {
                Some(self.material.medium(POWER_LAW_UNIT_HZ))
            }
            _ => None,
        }
    }

    #[inline(always)]
    pub(crate) fn medium<S: Simd>(&self, frequency: &FrequencyLanes<S>) -> MediumLanes<S> {
        let fixed = |value: f64| frequency.hz.constant(value);
        let (real, loss) = match &self.material.permittivity {
            Permittivity::Constant { relative, loss_tangent } => (fixed(*relative), fixed(relative * loss_tangent)),
            Permittivity::PowerLaw(law) => (law.in_lanes(frequency), fixed(0.0)),
        };
        let conductivity = match &self.material.conductivity {
            Conductivity::Constant(value) => fixed(*value),
            Conductivity::PowerLaw(law) => law.in_lanes(frequency),
        };
        let conduction = conductivity * (frequency.over_hz * (1.0 / (2.0 * PI * VACUUM_PERMITTIVITY)));
        MediumLanes {
            permittivity: Complex::new(real, -(loss + conduction)),
            permeability: self.permeability.at(frequency),
        }
    }
}

impl PowerLaw {
    #[inline(always)]
    fn in_lanes<S: Simd>(&self, frequency: &FrequencyLanes<S>) -> Real<S> {
        if self.exponent == 0.0 {
            frequency.hz.constant(self.coefficient)
        } else {
            (frequency.ln_ghz * self.exponent).exp() * self.coefficient
        }
    }
}

impl PermeabilityLanes<'_> {
    #[inline(always)]
    fn at<S: Simd>(&self, frequency: &FrequencyLanes<S>) -> PermeabilityRegister<S> {
        let hz = frequency.hz;
        let complex = match self {
            Self::Constant(value) => return PermeabilityRegister::Real(*value),
            Self::Relaxing { excess, over_relaxation_hz } => {
                let ratio = hz * *over_relaxation_hz;
                let share = *excess / ratio.mul_add(ratio, 1.0);
                Complex::new(share + 1.0, -(ratio * share))
            }
            Self::Joined(stretches) => joined(stretches, hz),
            Self::LookedUp(table) => Complex::new(hz.map_lanes(|f| table.at(f).re), hz.map_lanes(|f| table.at(f).im)),
        };
        PermeabilityRegister::Complex(complex)
    }
}

fn stretches(table: &PermeabilityTable) -> Vec<Stretch> {
    let value = |row: usize| table.rows()[row];
    let hz = table.frequency_hz();
    (0..hz.len())
        .map(|row| {
            let slope = match hz.get(row + 1) {
                Some(next) => (value(row + 1) - value(row)) / (next / hz[row]).ln(),
                None => Complex64::new(0.0, 0.0),
            };
            Stretch { from_hz: hz[row], over_from_hz: 1.0 / hz[row], value: value(row), slope }
        })
        .collect()
}

#[inline(always)]
fn joined<S: Simd>(stretches: &[Stretch], hz: Real<S>) -> Complex<S> {
    let zero = hz.constant(0.0);
    let first = stretches.first().map_or(Complex64::new(f64::NAN, f64::NAN), |stretch| stretch.value);
    let (mut re, mut im) = (hz.constant(first.re), hz.constant(first.im));
    let (mut slope_re, mut slope_im, mut over_from) = (zero, zero, 1.0 / hz);
    for stretch in stretches {
        let below = hz.less(stretch.from_hz);
        re = below.select(re, stretch.value.re);
        im = below.select(im, stretch.value.im);
        slope_re = below.select(slope_re, stretch.slope.re);
        slope_im = below.select(slope_im, stretch.slope.im);
        over_from = below.select(over_from, stretch.over_from_hz);
    }
    let along = (hz * over_from).ln();
    Complex::new(slope_re.mul_add(along, re), slope_im.mul_add(along, im))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lanes::{Kernel, Window, sweep};
    use crate::material::catalogue;

    struct Media<'a> {
        material: MaterialLanes<'a>,
        hz: &'a [f64],
        out: [Vec<f64>; 4],
    }

    impl Kernel for Media<'_> {
        #[inline(always)]
        fn run<S: Simd>(&mut self, at: Window<S>) {
            let frequency = FrequencyLanes::new(at.load(self.hz), self.material.has_power_law());
            let medium = self.material.medium(&frequency);
            at.store(medium.permittivity.re, &mut self.out[0]);
            at.store(medium.permittivity.im, &mut self.out[1]);
            let permeability = medium.permeability.times(at.splat_complex(Complex64::ONE));
            at.store(permeability.re, &mut self.out[2]);
            at.store(permeability.im, &mut self.out[3]);
        }
    }

    fn agrees(material: &Material) {
        let mut hz: Vec<f64> = (0..400).map(|i| 10f64.powf(f64::from(i) * 0.03)).collect();
        if let Permeability::Tabulated(table) = material.permeability() {
            hz.extend_from_slice(table.frequency_hz());
        }
        let out = std::array::from_fn(|_| vec![0.0; hz.len()]);
        let mut media = Media { material: MaterialLanes::new(material), hz: &hz, out };
        sweep(hz.len(), &mut media);
        for (i, &f) in hz.iter().enumerate() {
            let expected = material.medium(f);
            let permittivity = Complex64::new(media.out[0][i], media.out[1][i]);
            let permeability = Complex64::new(media.out[2][i], media.out[3][i]);
            let near = |found: Complex64, expected: Complex64| (found - expected).norm() <= 2e-14 * expected.norm();
            assert!(near(permittivity, expected.relative_permittivity), "{} at {f} Hz", material.name());
            assert!(near(permeability, expected.relative_permeability), "{} at {f} Hz", material.name());
        }
    }

    #[test]
    fn every_material_of_the_catalogue_agrees_with_its_scalar_twin() {
        for name in catalogue::names() {
            agrees(&catalogue::get(name).unwrap());
        }
    }

    #[test]
    fn every_kind_of_permeability_agrees() {
        let with = |permeability| {
            let permittivity = Permittivity::Constant { relative: 1.0, loss_tangent: 0.0 };
            Material::new("test", Conductivity::Constant(1e6), permittivity, permeability).unwrap()
        };
        agrees(&with(Permeability::Relaxing { initial: 900.0, relaxation_hz: 2e5 }));
        for rows in [1, 2, ROWS_IN_LANES, ROWS_IN_LANES + 9] {
            let hz: Vec<f64> = (0..rows).map(|row| 10f64.powf(1.0 + 0.5 * row as f64)).collect();
            let real = (0..rows).map(|row| 1000.0 / (1.0 + row as f64)).collect();
            let loss = (0..rows).map(|row| 3.0 * row as f64).collect();
            agrees(&with(Permeability::Tabulated(PermeabilityTable::new(hz, real, loss).unwrap())));
        }
    }
}
