//! What an opening can carry: voltages across it, and the potential by which an electric field bulges through.
//!
//! A voltage is sin(mπu/l) along one axis, with the field along the other one: what a magnetic field along the wall
//! drives. The potential g = √((1 − (2x/l_x)²)(1 − (2y/l_y)²)) has the field ∇g: what an electric
//! field on the wall drives, and an electric dipole seen from afar. Both are tied to the static
//! polarizabilities of the opening; the potential carries 1/k, so that all that follows from it stays in
//! range at low frequency.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::arrival::BoxWave;
use super::opening::BoxAxis;
use crate::mouth::slit::Slit;
use crate::numeric::bessel_j_run;

/// A voltage sin(mπu/l) across an opening, u along one axis.
#[derive(Debug, Clone, Copy)]
pub(super) struct Voltage {
    pub opening: usize,
    /// Along which it varies; the field is along the other one.
    pub axis: BoxAxis,
    pub center_m: [f64; 2],
    pub mode: usize,
    pub cutoff_per_m: f64,
    /// Admittance of the mouth over that of the depth, both far below cutoff; of a slot by its own section.
    pub end_correction: Option<f64>,
    pub slit: Slit,
    pub length_m: f64,
    pub width_m: f64,
}

/// The potential of an opening.
#[derive(Debug, Clone, Copy)]
pub(super) struct Potential {
    pub opening: usize,
    pub center_m: [f64; 2],
    pub size_m: [f64; 2],
    pub polarizability_m3: f64,
    pub cutoff_per_m: f64,
}

/// One of both.
#[derive(Debug, Clone, Copy)]
pub(super) enum MouthField {
    Voltage(Voltage),
    Potential(Potential),
}

impl Voltage {
    /// mπ/l.
    pub(super) fn beta(&self) -> f64 {
        self.mode as f64 * PI / self.length_m
    }

    /// What a uniform field along the axis sees of it, m: ∫ sin(mπu/l) du.
    pub(super) fn mean_length_m(&self) -> f64 {
        if self.mode.is_multiple_of(2) { 0.0 } else { 2.0 / self.beta() }
    }

    /// ∫ sin(mπu/l) sin(κ(u − l/2) + …) du about the centre: of an odd mode with the cosine, of an even one with
    /// the sine of κ(u − l/2).
    pub(super) fn transform(&self, wavenumber: f64) -> f64 {
        let (beta, half) = (self.beta(), 0.5 * self.length_m);
        // Both lobes of ∫ are sines of (β ± κ) l/2 over (β ± κ): finite where they meet.
        let sinc = |x: f64| if x == 0.0 { 1.0 } else { x.sin() / x };
        let lobe = |q: f64| half * sinc(q * half);
        let sign = if (self.mode / 2).is_multiple_of(2) { 1.0 } else { -1.0 };
        if self.mode.is_multiple_of(2) {
            sign * (lobe(beta - wavenumber) - lobe(beta + wavenumber))
        } else {
            sign * (lobe(beta - wavenumber) + lobe(beta + wavenumber))
        }
    }

    /// The same across, over which the field is that of a strip: 1/√ towards both edges.
    pub(super) fn transform_across(&self, wavenumber: f64) -> f64 {
        bessel_j(0, 0.5 * wavenumber * self.width_m)
    }
}

impl Potential {
    /// ∫ g dA, m².
    pub(super) fn moment_m2(&self) -> f64 {
        (0.25 * PI).powi(2) * self.size_m[0] * self.size_m[1]
    }

    /// jωμ₀ Y/k² of either mouth far below resonance, with the sign turned: what gives the polarizability.
    pub(super) fn static_mouth(&self) -> f64 {
        self.moment_m2().powi(2) / (2.0 * self.polarizability_m3)
    }

    /// ∫ √(1 − (2x/l)²) cos κx dx along one axis.
    pub(super) fn transform(&self, axis: usize, wavenumber: f64) -> f64 {
        let half = 0.5 * self.size_m[axis];
        let q = wavenumber * half;
        // 2 J₁(q)/q loses nothing but its argument's zero.
        let round = if q < 1e-8 { 1.0 } else { 2.0 * bessel_j(1, q) / q };
        0.5 * PI * half * round
    }

    /// Four places that stand for it, each with a quarter of its moment: a rule of Gauss with the weight g, exact for
    /// what is of third degree along either axis.
    pub(super) fn places_m(&self) -> [[f64; 2]; 4] {
        let [x, y] = [0, 1].map(|axis| 0.25 * self.size_m[axis]);
        [[-x, -y], [-x, y], [x, -y], [x, y]].map(|[dx, dy]| [self.center_m[0] + dx, self.center_m[1] + dy])
    }
}

impl MouthField {
    pub(super) fn opening(&self) -> usize {
        match self {
            Self::Voltage(voltage) => voltage.opening,
            Self::Potential(potential) => potential.opening,
        }
    }

    pub(super) fn center_m(&self) -> [f64; 2] {
        match self {
            Self::Voltage(voltage) => voltage.center_m,
            Self::Potential(potential) => potential.center_m,
        }
    }

    /// Its sizes along width and height, m.
    pub(super) fn size_m(&self) -> [f64; 2] {
        match self {
            Self::Voltage(Voltage { axis: BoxAxis::X, length_m, width_m, .. }) => [*length_m, *width_m],
            Self::Voltage(Voltage { axis: BoxAxis::Y, length_m, width_m, .. }) => [*width_m, *length_m],
            Self::Potential(potential) => potential.size_m,
        }
    }

    /// Powers of k that it carries: of what two carry to each other the sum counts.
    pub(super) fn order(&self) -> usize {
        match self {
            Self::Voltage(_) => 1,
            Self::Potential(_) => 0,
        }
    }

    /// What a wave of 1 V/m drives in it: jkη₀ ∫ (e × H)·ẑ dA, H that on the closed front.
    pub(super) fn driven(&self, k: f64, wave: BoxWave) -> Complex64 {
        let zero = Complex64::new(0.0, 0.0);
        match (self, wave.along_front()) {
            // Twice the incident magnetic field drives what lies across the electric one.
            (Self::Voltage(voltage), None) => {
                let across = wave != BoxWave::Straight(voltage.axis);
                Complex64::new(0.0, if across { 2.0 * k * voltage.mean_length_m() } else { 0.0 })
            }
            (Self::Potential(_), None) => zero,
            (Self::Voltage(voltage), Some((travel, sense))) => {
                if travel == voltage.axis {
                    return zero;
                }
                let size = k * voltage.mean_length_m() * voltage.transform_across(k);
                Complex64::new(0.0, -sense * size) * wave.phase(k, voltage.center_m)
            }
            (Self::Potential(potential), Some((travel, _))) => {
                let along = travel.index();
                let rest = 0.25 * PI * potential.size_m[1 - along];
                wave.phase(k, potential.center_m) * (k * rest * potential.transform(along, k))
            }
        }
    }

    /// What it has to do with the modes of a box, apart for both axes.
    pub(super) fn factors(&self, interior_m: [f64; 3], last_per_m: f64) -> Factors {
        let center_m = self.center_m();
        let columns = std::array::from_fn(|axis| {
            let size_m = interior_m[axis];
            let steps = (last_per_m * size_m / PI).ceil() as usize;
            let value = |step: usize| {
                let wavenumber = step as f64 * PI / size_m;
                let (sine, cosine) = (wavenumber * center_m[axis]).sin_cos();
                match self {
                    Self::Voltage(voltage) if axis == voltage.axis.index() => {
                        voltage.transform(wavenumber) * if voltage.mode.is_multiple_of(2) { cosine } else { sine }
                    }
                    Self::Voltage(voltage) => cosine * voltage.transform_across(wavenumber),
                    Self::Potential(potential) => sine * potential.transform(axis, wavenumber),
                }
            };
            (0..=steps).map(value).collect()
        });
        let kind = match self {
            Self::Voltage(voltage) => Kind::Voltage(voltage.axis),
            Self::Potential(_) => Kind::Potential,
        };
        Factors { kind, columns }
    }
}

#[derive(Debug, Clone, Copy)]
enum Kind {
    Voltage(BoxAxis),
    Potential,
}

/// Integrals of what an opening carries with the modes along width and height.
#[derive(Debug)]
pub(super) struct Factors {
    kind: Kind,
    columns: [Vec<f64>; 2],
}

/// What one mode holds of what an opening carries: amplitudes of the field along x (cos kx x sin ky y) and along y
/// (sin kx x cos ky y), and kx E_y − ky E_x, which a potential has none of.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Share {
    pub along_x: f64,
    pub along_y: f64,
    pub curl: f64,
}

impl Factors {
    /// For a mode by its numbers and wavenumbers, over the root of its norm.
    pub(super) fn share(&self, [p, q]: [usize; 2], [kx, ky]: [f64; 2], root: f64) -> Share {
        let value = root * self.columns[0][p] * self.columns[1][q];
        match self.kind {
            Kind::Voltage(BoxAxis::X) => Share { along_x: 0.0, along_y: value, curl: kx * value },
            Kind::Voltage(BoxAxis::Y) => Share { along_x: value, along_y: 0.0, curl: -ky * value },
            Kind::Potential => Share { along_x: kx * value, along_y: ky * value, curl: 0.0 },
        }
    }
}

impl Share {
    /// E_x E_x′ + E_y E_y′.
    #[inline]
    pub(super) fn product(&self, other: &Self) -> f64 {
        self.along_x * other.along_x + self.along_y * other.along_y
    }
}

/// J₀ or J₁.
fn bessel_j(order: usize, x: f64) -> f64 {
    let mut value = [0.0; 2];
    bessel_j_run(0.0, x, &mut value[..=order]);
    value[order]
}
