//! Uniform lines whose impedance and admittance follow simple laws of frequency: cables and feedthrough capacitors.
//!
//! ```text
//! Z = R + (1 + j) r sqrt(w) + j w L,   1/Y = 1/(w C (j + tan d)) + S
//! ```
//!
//! of the whole line (the electrode of a feedthrough capacitor has an equivalent series resistance S, a cable none), and an inductance of the outer conductor to the reference plane, common to both sides.

use num_complex::Complex64;

use super::TwoPort;

/// A uniform line by the laws of its impedance and admittance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct LineLaw {
    /// R, ohm.
    pub(crate) resistance_ohm: f64,
    /// r, ohm for each root of rad/s.
    pub(crate) skin: f64,
    /// L, H.
    pub(crate) inductance_h: f64,
    /// C, F.
    pub(crate) capacitance_f: f64,
    /// tan d.
    pub(crate) loss_tangent: f64,
    /// S, ohm.
    pub(crate) series_ohm: f64,
    /// From the outer conductor to the plane, H.
    pub(crate) return_h: f64,
}

impl LineLaw {
    /// As a two-port at an angular frequency in rad/s.
    pub(crate) fn two_port(&self, omega: f64) -> TwoPort {
        let skin = self.skin * omega.sqrt();
        let impedance = Complex64::new(self.resistance_ohm + skin, skin + omega * self.inductance_h);
        let admittance = Complex64::new(self.loss_tangent, 1.0) * (omega * self.capacitance_f);
        let admittance = admittance / (admittance * self.series_ohm + 1.0);
        let line = TwoPort::uniform_line(impedance, admittance);
        if self.return_h > 0.0 { line.with_common_impedance(Complex64::new(0.0, omega * self.return_h)) } else { line }
    }
}
