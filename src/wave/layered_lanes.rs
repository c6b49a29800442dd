//! A wave through a stack of layers at many frequencies, a register at a time: the twin of
//! [`super::layered`].
//!
//! The tangential fields are carried from the far side to the near one, divided by the growth
//! exp(γd) of each layer, so that nothing overflows:
//!
//! - E ← E − h, G ← G + h/ζ, h = (1 − exp(−2γd))/2 · (E − ζG);
//! - G stands for jη₀H (TE) or −jη₀H (TM), which makes ζ = μk₀/γ (TE) and ζ = γ/(εk₀) (TM);
//! - a film adds its admittance times E to η₀H;
//! - outside ζ₀ follows from γ₀ = √(k_t² − k₀²), and T = 2 exp(−Σγd)/(E + ζ₀G) from E = 1, G = 1/ζ₀
//!   behind the stack.
//!
//! Marching towards the wave is the direction in which the fields grow, and so rounding dies out.
//! Where a layer's exp(−2γd) is below rounding for a whole register it is not computed, and a layer
//! that is the same at every frequency is prepared once.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::incidence::{Incidence, Polarization, cosine_of_deg};
use super::layered::{OFF_GRAZING, propagation_and_impedance};
use super::sheet::Passages;
use super::waves::{Direction, Waves};
use crate::constants::SPEED_OF_LIGHT;
use crate::lanes::{Column, Complex, Kernel, Real, Simd, Window, in_parts, sweep};
use crate::material::{FrequencyLanes, MaterialLanes, Medium};

/// Real part of γd from which on exp(−2γd) changes nothing, with room for media that answer a
/// grazing or evanescent wave with a reflection far greater than one.
const OPAQUE_NEPERS: f64 = 40.0;

/// So many layers cannot take the fields out of range; then they are scaled back.
const LAYERS_BETWEEN_SCALINGS: usize = 8;

/// A frequency that stands for all of them where nothing depends on it.
const ANY_HZ: f64 = 1.0;

/// One member of a stack, at every frequency.
#[derive(Debug, Clone)]
pub(crate) enum StratumLanes<'a> {
    Slab { material: MaterialLanes<'a>, thickness_m: f64 },
    Film { relative_admittance: f64 },
}

/// A stack prepared for waves of one polarization, and of one angle if they share it.
#[derive(Debug)]
pub(crate) struct StackLanes<'a> {
    polarization: Polarization,
    /// From the far side.
    members: Vec<Member<'a>>,
    has_power_law: bool,
}

#[derive(Debug)]
enum Member<'a> {
    Dispersive {
        material: MaterialLanes<'a>,
        thickness_m: f64,
    },
    /// γ/k₀, ζ and 1/ζ are the same for all waves of the batch.
    Prepared {
        thickness_m: f64,
        propagation: Complex64,
        zeta: Complex64,
        over_zeta: Complex64,
    },
    Film {
        relative_admittance: f64,
    },
    /// Brings the fields back into range.
    Scaling,
}

/// What is left of a wave behind the stack, before its logarithms are taken.
#[derive(Clone, Copy)]
pub(crate) struct Passage<S: Simd> {
    /// Σγd and the scalings taken out of the fields, nepers and radians.
    exponent: Complex<S>,
    /// (E + ζ₀G)/2: one over the transmission without the exponent.
    forward: Complex<S>,
    /// (E − ζ₀G)/2.
    backward: Complex<S>,
}

impl<'a> StackLanes<'a> {
    /// From the members of a stack, the first facing the wave.
    pub(crate) fn new<I>(strata: I, waves: &Waves<'_>, polarization: Polarization) -> Self
    where
        I: IntoIterator<Item = StratumLanes<'a>>,
        I::IntoIter: DoubleEndedIterator,
    {
        let same_angle = match waves.direction() {
            Direction::Angle(Column::Same(angle_deg)) => Some(angle_deg),
            _ => None,
        };
        let mut members = Vec::new();
        let mut has_power_law = false;
        for (place, stratum) in strata.into_iter().rev().enumerate() {
            if place % LAYERS_BETWEEN_SCALINGS == LAYERS_BETWEEN_SCALINGS - 1 {
                members.push(Member::Scaling);
            }
            members.push(match stratum {
                StratumLanes::Film { relative_admittance } => Member::Film { relative_admittance },
                StratumLanes::Slab { material, thickness_m } => {
                    has_power_law |= material.has_power_law();
                    match (material.dispersionless(), same_angle) {
                        (Some(medium), Some(angle_deg)) => prepared(&medium, thickness_m, angle_deg, polarization),
                        _ => Member::Dispersive { material, thickness_m },
                    }
                }
            });
        }
        Self { polarization, members, has_power_law }
    }

    /// The wave at the places of `at`.
    #[inline(always)]
    fn pass<S: Simd>(&self, at: Window<S>, waves: &Waves<'_>) -> Passage<S> {
        let frequency = FrequencyLanes::new(at.column(waves.frequency_hz()), self.has_power_law);
        // to the last bit as the scalar twin has it, since grazing waves depend on it
        let wavenumber = frequency.hz * (2.0 * PI) / SPEED_OF_LIGHT;
        let over_wavenumber = frequency.over_hz * (SPEED_OF_LIGHT / (2.0 * PI));
        let (squared, zeta, over_zeta) = self.outside(at, waves, wavenumber, over_wavenumber);
        let zero = at.splat(0.0);
        let mut wave =
            Fields { e: Complex::new(at.splat(1.0), zero), g: over_zeta, exponent: Complex::new(zero, zero) };
        for member in &self.members {
            match member {
                Member::Prepared { thickness_m, propagation, zeta, over_zeta } => {
                    let fixed = |z: &Complex64| Complex::new(at.splat(z.re), at.splat(z.im));
                    let exponent = fixed(propagation).scale(wavenumber * *thickness_m);
                    wave.cross(exponent, fixed(zeta), fixed(over_zeta));
                }
                Member::Dispersive { material, thickness_m } => {
                    let medium = material.medium(&frequency);
                    let product = medium.permeability.times(medium.permittivity);
                    let (propagation, over_propagation) =
                        Complex::new((squared.re - (product.re - 1.0)) + OFF_GRAZING, squared.im - product.im)
                            .sqrt_and_recip();
                    let exponent = propagation.scale(wavenumber * *thickness_m);
                    let (zeta, over_zeta) = match self.polarization {
                        Polarization::Te => {
                            (medium.permeability.times(over_propagation), medium.permeability.divide(propagation))
                        }
                        Polarization::Tm => {
                            (propagation * medium.permittivity.recip(), medium.permittivity * over_propagation)
                        }
                    };
                    wave.cross(exponent, zeta, over_zeta);
                }
                Member::Film { relative_admittance } => {
                    let turned = wave.e.times_j().scale(at.splat(*relative_admittance));
                    wave.g = match self.polarization {
                        Polarization::Te => wave.g + turned,
                        Polarization::Tm => wave.g - turned,
                    };
                }
                Member::Scaling => wave.scale_back(),
            }
        }
        let incident = zeta * wave.g;
        let half = at.splat(0.5);
        Passage {
            exponent: wave.exponent,
            forward: (wave.e + incident).scale(half),
            backward: (wave.e - incident).scale(half),
        }
    }

    /// (γ₀/k₀)², ζ₀ and 1/ζ₀ of the vacuum outside.
    #[inline(always)]
    fn outside<S: Simd>(
        &self,
        at: Window<S>,
        waves: &Waves<'_>,
        wavenumber: Real<S>,
        over_wavenumber: Real<S>,
    ) -> (Complex<S>, Complex<S>, Complex<S>) {
        let zero = at.splat(0.0);
        let (squared, propagation) = match waves.direction() {
            Direction::Angle(angle_deg) => {
                let cosine = match angle_deg {
                    Column::Same(angle_deg) => at.splat(cosine_of_deg(angle_deg)),
                    Column::Each(angles_deg) => cosines_of_deg(at.load(angles_deg)),
                };
                (Complex::new(-(cosine * cosine), zero), Complex::new(zero, cosine))
            }
            Direction::Transverse(transverse) => {
                let transverse = at.column(transverse);
                let over = 1.0 / wavenumber;
                let squared = ((transverse - wavenumber) * over) * ((transverse + wavenumber) * over) + OFF_GRAZING;
                let root = squared.abs().sqrt();
                let evanescent = squared.greater(0.0);
                let propagation = Complex::new(evanescent.select(root, zero), evanescent.select(zero, root));
                (Complex::new(squared, zero), propagation)
            }
            Direction::BesideCut(decay) => {
                let decay = at.column(decay) * over_wavenumber;
                // (x/k₀ + j)²
                let squared = Complex::new((decay - 1.0) * (decay + 1.0), decay + decay);
                (squared, Complex::new(decay, at.splat(1.0)))
            }
        };
        let over = propagation.recip();
        match self.polarization {
            Polarization::Te => (squared, over, propagation),
            Polarization::Tm => (squared, propagation, over),
        }
    }
}

/// The twin of [`cosine_of_deg`].
#[inline(always)]
fn cosines_of_deg<S: Simd>(angle_deg: Real<S>) -> Real<S> {
    let steep = angle_deg.greater(45.0);
    let (sin, cos) = (steep.select(90.0 - angle_deg, angle_deg) * (PI / 180.0)).sin_cos();
    steep.select(sin, cos)
}

/// The scalar twin's view of a layer, in units of k₀.
fn prepared<'a>(medium: &Medium, thickness_m: f64, angle_deg: f64, polarization: Polarization) -> Member<'a> {
    let wave = Incidence::at_angle(ANY_HZ, angle_deg);
    let (propagation, impedance) = propagation_and_impedance(medium, &wave, polarization);
    // Z is the impedance over that of vacuum: jμk₀/γ or −jγ/(εk₀)
    let zeta = match polarization {
        Polarization::Te => -Complex64::i() * impedance,
        Polarization::Tm => Complex64::i() * impedance,
    };
    Member::Prepared { thickness_m, propagation: propagation / wave.wavenumber_per_m(), zeta, over_zeta: 1.0 / zeta }
}

struct Fields<S: Simd> {
    e: Complex<S>,
    g: Complex<S>,
    exponent: Complex<S>,
}

impl<S: Simd> Fields<S> {
    #[inline(always)]
    fn cross(&mut self, exponent: Complex<S>, zeta: Complex<S>, over_zeta: Complex<S>) {
        self.exponent = self.exponent + exponent;
        let against = self.e - zeta * self.g;
        let change = if exponent.re.greater(OPAQUE_NEPERS).all() {
            against.scale(against.re.constant(0.5))
        } else {
            let doubled = exponent.scale(against.re.constant(-2.0));
            doubled.exp_m1().scale(against.re.constant(-0.5)) * against
        };
        self.e = self.e - change;
        self.g = change.mul_add(over_zeta, self.g);
    }

    #[inline(always)]
    fn scale_back(&mut self) {
        let largest = (self.e.re.abs().larger(self.e.im.abs())).larger(self.g.re.abs().larger(self.g.im.abs()));
        let (scale, ln_scale) = largest.power_of_two_near();
        self.e = self.e.scale(scale);
        self.g = self.g.scale(scale);
        self.exponent.re = self.exponent.re - ln_scale;
    }
}

impl<S: Simd> Passage<S> {
    /// ln |T|.
    #[inline(always)]
    pub(crate) fn ln_modulus(&self) -> Real<S> {
        -(self.forward.ln_norm_sqr().mul_add(0.5, self.exponent.re))
    }

    /// ln T; its phase differs from that of the scalar twin by whole turns at most.
    #[inline(always)]
    pub(crate) fn ln_transmission(&self) -> Complex<S> {
        -(self.forward.ln() + self.exponent)
    }

    /// Reflected over incident tangential electric field.
    #[inline(always)]
    pub(crate) fn reflection(&self) -> Complex<S> {
        self.backward / self.forward
    }
}

/// What is wanted of each wave of a batch.
pub(crate) trait Wanted {
    /// One result.
    type Value: Send;
    /// Puts the results at the places of `at` into the batch.
    fn put<S: Simd>(passage: &Passage<S>, at: Window<S>, out: &mut [Self::Value]);
}

/// ln |T|.
pub(crate) struct LnModulus;
/// ln T.
pub(crate) struct LnTransmission;
/// Reflected over incident tangential electric field.
pub(crate) struct Reflection;

impl Wanted for LnModulus {
    type Value = f64;
    #[inline(always)]
    fn put<S: Simd>(passage: &Passage<S>, at: Window<S>, out: &mut [f64]) {
        at.store(passage.ln_modulus(), out);
    }
}

impl Wanted for LnTransmission {
    type Value = Complex64;
    #[inline(always)]
    fn put<S: Simd>(passage: &Passage<S>, at: Window<S>, out: &mut [Complex64]) {
        at.store_complex(passage.ln_transmission(), out);
    }
}

impl Wanted for Reflection {
    type Value = Complex64;
    #[inline(always)]
    fn put<S: Simd>(passage: &Passage<S>, at: Window<S>, out: &mut [Complex64]) {
        at.store_complex(passage.reflection(), out);
    }
}

/// Sends a batch of waves through a stack, on several threads where that pays, as far as both the
/// waves and `out` go.
pub(crate) fn pass_all<'a, W: Wanted>(stack: &StackLanes<'a>, waves: &Waves<'_>, out: &mut [W::Value]) {
    let count = out.len().min(waves.len());
    let (out, work) = (&mut out[..count], stack.members.len() * count);
    in_parts(out, work, |start, out| {
        let waves = waves.part(start, out.len());
        sweep(out.len(), &mut PassAll::<W> { stack, waves, out });
    });
}

struct PassAll<'a, 'b, W: Wanted> {
    stack: &'a StackLanes<'b>,
    waves: Waves<'a>,
    out: &'a mut [W::Value],
}

impl<W: Wanted> Kernel for PassAll<'_, '_, W> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        W::put(&self.stack.pass(at, &self.waves), at, self.out);
    }
}

/// The factors of T of a batch of waves, on one thread: the spectrum of a near source is short.
pub(crate) fn pass_factors<'a>(stack: &StackLanes<'a>, waves: &Waves<'_>, out: &mut Passages) {
    sweep(out.len().min(waves.len()), &mut Factors { stack, waves, out });
}

struct Factors<'a, 'b> {
    stack: &'a StackLanes<'b>,
    waves: &'a Waves<'a>,
    out: &'a mut Passages,
}

impl Kernel for Factors<'_, '_> {
    #[inline(always)]
    fn run<S: Simd>(&mut self, at: Window<S>) {
        let passage = self.stack.pass(at, self.waves);
        at.store(passage.exponent.re, &mut self.out.exponent.re);
        at.store(passage.exponent.im, &mut self.out.exponent.im);
        at.store(passage.forward.re, &mut self.out.forward.re);
        at.store(passage.forward.im, &mut self.out.forward.im);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::constants::wavenumber_per_m;
    use crate::material::{Conductivity, Material, Permeability, Permittivity, catalogue};
    use crate::wave::layered::{Scattering, Stratum, scatter};

    /// A stack as both twins take it.
    #[allow(clippy::large_enum_variant, reason = "a few of them, in tests")]
    #[derive(Clone)]
    enum Part {
        Slab(Material, f64),
        Film(f64),
    }

    fn lanes_of(stack: &[Part]) -> impl DoubleEndedIterator<Item = StratumLanes<'_>> {
        stack.iter().map(|part| match part {
            Part::Slab(material, thickness_m) => {
                StratumLanes::Slab { material: MaterialLanes::new(material), thickness_m: *thickness_m }
            }
            Part::Film(relative_admittance) => StratumLanes::Film { relative_admittance: *relative_admittance },
        })
    }

    fn scalar(stack: &[Part], wave: &Incidence, polarization: Polarization) -> Scattering {
        let strata = stack.iter().map(|part| match part {
            Part::Slab(material, thickness_m) => {
                Stratum::Slab { medium: material.medium(wave.frequency_hz()), thickness_m: *thickness_m }
            }
            Part::Film(admittance) => Stratum::Film { relative_admittance: Complex64::new(*admittance, 0.0) },
        });
        scatter(strata, wave, polarization)
    }

    /// Radians and nepers through the stack: one rounding of these moves a resonance, and with it
    /// the logarithm, by as much.
    fn turns(stack: &[Part], wave: &Incidence, polarization: Polarization) -> f64 {
        stack
            .iter()
            .map(|part| match part {
                Part::Slab(material, thickness_m) => {
                    let medium = material.medium(wave.frequency_hz());
                    let (propagation, _) = propagation_and_impedance(&medium, wave, polarization);
                    // beyond an opaque layer nothing comes back
                    if propagation.re * thickness_m > OPAQUE_NEPERS { 0.0 } else { propagation.im * thickness_m }
                }
                Part::Film(_) => 0.0,
            })
            .sum()
    }

    fn hold_together(stack: &[Part], waves: &Waves<'_>, polarization: Polarization) {
        let prepared = StackLanes::new(lanes_of(stack), waves, polarization);
        let mut moduli = vec![0.0; waves.len()];
        pass_all::<LnModulus>(&prepared, waves, &mut moduli);
        let mut logarithms = vec![Complex64::ZERO; waves.len()];
        pass_all::<LnTransmission>(&prepared, waves, &mut logarithms);
        let mut reflections = vec![Complex64::ZERO; waves.len()];
        pass_all::<Reflection>(&prepared, waves, &mut reflections);
        for (i, wave) in waves.iter().enumerate() {
            let expected = scalar(stack, &wave, polarization);
            assert!(expected.ln_transmission.is_finite(), "{polarization:?} {wave:?}");
            let (ln, reflection) = (expected.ln_transmission, expected.reflection);
            let what = format!("{polarization:?} {wave:?}");
            let moved = 2e-14 * (1.0 + turns(stack, &wave, polarization));
            for found in [moduli[i], logarithms[i].re] {
                let error = (found - ln.re).abs();
                assert!(error <= 1e-12 * ln.re.abs() + moved, "{what}: {found} {} {error:e}", ln.re);
            }
            let phase = (logarithms[i].im - ln.im) / (2.0 * std::f64::consts::PI);
            let error = (phase - phase.round()).abs();
            assert!(error <= 1e-12 * ln.im.abs() + moved, "{what}: phase {} {} {error:e}", logarithms[i].im, ln.im);
            let error = (reflections[i] - reflection).norm();
            assert!(error <= 1e-13 + moved, "{what}: reflection {error:e}");
        }
    }

    fn materials() -> Vec<Material> {
        let named = |name| catalogue::get(name).unwrap();
        let relaxing = Material::new(
            "relaxing",
            Conductivity::Constant(1e6),
            Permittivity::Constant { relative: 1.0, loss_tangent: 0.0 },
            Permeability::Relaxing { initial: 5000.0, relaxation_hz: 1e5 },
        );
        let mut materials =
            vec![named("copper"), named("steel"), named("mu-metal"), named("chipboard"), named("vacuum")];
        materials.push(relaxing.unwrap());
        materials.push(Material::dielectric("foam", 1.05, 0.0).unwrap());
        materials.push(Material::dielectric("glass", 6.0, 0.02).unwrap());
        materials
    }

    fn frequencies() -> Vec<f64> {
        (0..=120).map(|i| 10f64.powf(f64::from(i) * 0.1)).collect()
    }

    #[test]
    fn single_layers_hold_together() {
        let frequency_hz = frequencies();
        for material in materials() {
            for thickness_m in [1e-9, 1e-7, 1e-5, 1e-3, 0.1, 1.0] {
                let stack = [Part::Slab(material.clone(), thickness_m)];
                for angle_deg in [0.0, 45.0, 89.0, 89.999_99] {
                    let angles_deg = vec![angle_deg; frequency_hz.len()];
                    for polarization in [Polarization::Te, Polarization::Tm] {
                        hold_together(&stack, &Waves::at_angle(&frequency_hz, angle_deg), polarization);
                        hold_together(&stack, &Waves::at_angles(&frequency_hz, &angles_deg), polarization);
                    }
                }
            }
        }
    }

    #[test]
    fn panels_and_films_hold_together() {
        let frequency_hz = frequencies();
        for face in materials() {
            for core in materials() {
                let stack = [
                    Part::Slab(face.clone(), 0.5e-3),
                    Part::Film(377.0 / 50.0),
                    Part::Slab(core.clone(), 19e-3),
                    Part::Film(377.0 / 0.5),
                    Part::Slab(face.clone(), 0.5e-3),
                ];
                for (angle_deg, polarization) in
                    [(0.0, Polarization::Te), (60.0, Polarization::Te), (80.0, Polarization::Tm)]
                {
                    hold_together(&stack, &Waves::at_angle(&frequency_hz, angle_deg), polarization);
                }
            }
        }
    }

    #[test]
    fn a_large_batch_is_the_sum_of_its_parts() {
        let frequency_hz: Vec<f64> = (0..50_001).map(|i| 1e3 * 1.0003_f64.powi(i)).collect();
        let stack = [Part::Slab(catalogue::get("steel").unwrap(), 1e-4), Part::Film(2.0)];
        let all = Waves::at_angle(&frequency_hz, 30.0);
        let prepared = StackLanes::new(lanes_of(&stack), &all, Polarization::Tm);
        let mut whole = vec![0.0; all.len()];
        pass_all::<LnModulus>(&prepared, &all, &mut whole);
        let mut longer = [7.0; 3];
        pass_all::<LnModulus>(&prepared, &all.part(0, 2), &mut longer);
        assert_eq!(longer, [whole[0], whole[1], 7.0]);
        for start in (0..all.len()).step_by(997) {
            let mut alone = [0.0];
            pass_all::<LnModulus>(&prepared, &all.part(start, 1), &mut alone);
            assert_eq!(alone[0].to_bits(), whole[start].to_bits(), "place {start}");
        }
    }

    #[test]
    fn many_layers_stay_in_range() {
        let frequency_hz = frequencies();
        let foam = Material::dielectric("foam", 1.05, 0.0).unwrap();
        let pair = [Part::Slab(catalogue::get("mu-metal").unwrap(), 20e-6), Part::Slab(foam, 1e-3)];
        let stack: Vec<Part> = pair.iter().cycle().take(120).cloned().collect();
        hold_together(&stack, &Waves::at_angle(&frequency_hz, 0.0), Polarization::Te);
    }

    #[test]
    fn near_sources_hold_together() {
        let mut transverse: Vec<f64> = (0..200).map(|i| 10f64.powf(-4.0 + 0.04 * f64::from(i))).collect();
        for frequency_hz in [10.0, 1e4, 1e7, 1e9] {
            // grazing outside, to the last bit
            transverse[0] = wavenumber_per_m(frequency_hz);
            for material in materials() {
                let backing = Part::Slab(catalogue::get("copper").unwrap(), 1e-5);
                let stack = [Part::Slab(material.clone(), 1e-3), backing];
                for polarization in [Polarization::Te, Polarization::Tm] {
                    hold_together(&stack, &Waves::spectrum(frequency_hz, &transverse), polarization);
                }
            }
        }
    }
}
