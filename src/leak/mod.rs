//! The one currency: every part of a room is a leak, and leaks add in square metres.
//!
//! A leak's *transmission cross-section* is the power that it lets through over the power density
//! that falls on it, m². It is carried as its logarithm, since a good panel offers 10⁻³⁰ m² and a
//! thick one offers numbers that no float can hold. An exposure (a plane wave, two antennas) turns
//! cross-sections into decibels at a place.

mod panel;
mod tabulated;
mod wall;

use std::fmt::Debug;
use std::sync::Arc;

use crate::Result;
use crate::object::AnyObject;
use crate::parameter::{Knobs, Rebuild};
use crate::validity::Validity;
use crate::wave::Sheet;

pub use panel::Panel;
pub use tabulated::TabulatedLeak;
pub use wall::Wall;

/// How a leak is spread over the wall.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum Extent {
    /// Small against its distance from the antennas.
    Point,
    /// Spread along a straight line, in equal elements.
    Line {
        /// Length, m.
        length_m: f64,
        /// Number of elements (bays, holes) that share the cross-section.
        elements: usize,
    },
    /// Spread over a rectangle, in equal elements that pass the wave in step.
    Area {
        /// Width, m.
        width_m: f64,
        /// Height, m.
        height_m: f64,
        /// Number of elements (cells, holes) that share the cross-section.
        elements: usize,
    },
    /// Spread along the outline of a rectangle, in equal elements.
    Outline {
        /// Width, m.
        width_m: f64,
        /// Height, m.
        height_m: f64,
        /// Number of elements that share the cross-section.
        elements: usize,
    },
}

impl Extent {
    /// Number of elements, at least one.
    #[must_use]
    pub fn elements(&self) -> usize {
        match *self {
            Self::Point => 1,
            Self::Line { elements, .. } | Self::Area { elements, .. } | Self::Outline { elements, .. } => {
                elements.max(1)
            }
        }
    }
}

/// Quasi-static polarizabilities of an opening that is small against the wavelength, m³.
///
/// Convention: the dipole moments radiate in the presence of the closed wall, as in H. A. Bethe,
/// "Theory of diffraction by small holes", Phys. Rev. 66 (1944) 163; a round hole of radius a has
/// the magnetic polarizability 4a³/3 and the electric one 2a³/3.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Polarizability {
    /// Electric, for the field normal to the wall.
    pub electric_m3: f64,
    /// Magnetic, for the field in the wall along the opening's first axis (the longer one).
    pub magnetic_along_m3: f64,
    /// Magnetic, for the field in the wall across that axis.
    pub magnetic_across_m3: f64,
}

/// The curves of a leak over frequency, to be filled by [`Leak::answer`]: one place for each frequency.
#[derive(Debug)]
pub struct Columns<'a> {
    /// [`Leak::ln_cross_section`].
    pub ln_cross_section: &'a mut [f64],
    /// [`Leak::ln_in_amplitude`].
    pub ln_in_amplitude: &'a mut [f64],
    /// [`Leak::directivity`], where it is wanted.
    pub directivity: Option<&'a mut [f64]>,
}

/// The room that [`Columns`] need.
#[derive(Debug, Clone, PartialEq)]
pub struct Curves {
    /// [`Leak::ln_cross_section`].
    pub ln_cross_section: Vec<f64>,
    /// [`Leak::ln_in_amplitude`].
    pub ln_in_amplitude: Vec<f64>,
    /// [`Leak::directivity`]; empty where it is not wanted.
    pub directivity: Vec<f64>,
}

impl Curves {
    /// What a leak answers at these frequencies, Hz; a curve that it leaves out is no number.
    #[must_use]
    pub fn of(leak: &dyn Leak, frequency_hz: &[f64], with_directivity: bool) -> Self {
        let unknown = vec![f64::NAN; frequency_hz.len()];
        let directivity = if with_directivity { unknown.clone() } else { Vec::new() };
        let mut curves = Self { ln_cross_section: unknown.clone(), ln_in_amplitude: unknown, directivity };
        leak.answer(
            frequency_hz,
            &mut Columns {
                ln_cross_section: &mut curves.ln_cross_section,
                ln_in_amplitude: &mut curves.ln_in_amplitude,
                directivity: with_directivity.then_some(&mut curves.directivity),
            },
        );
        curves
    }
}

/// A part of the enclosure that lets power through.
pub trait Leak: LeakObject + Debug + Send + Sync {
    /// Natural logarithm of the transmission cross-section in m², averaged over angle and
    /// polarization of waves from the outer half-space. For several elements, of all together.
    ///
    /// Domain: finite positive frequency, Hz.
    fn ln_cross_section(&self, frequency_hz: f64) -> f64;

    /// The same at many frequencies; `out` has the length of `frequency_hz`.
    fn ln_cross_sections(&self, frequency_hz: &[f64], out: &mut [f64]) {
        for (ln, &frequency_hz) in out.iter_mut().zip(frequency_hz) {
            *ln = self.ln_cross_section(frequency_hz);
        }
    }

    /// ln of the cross-section, m², that its elements would have if the amplitudes of all added, whatever their
    /// phases: (Σ √σᵢ)², σᵢ what each passes *alone*, by what they pass together at these frequencies. All have
    /// the same length.
    ///
    /// A leak whose cross-section holds what its elements gain from being in step takes that out again: it would
    /// count twice. By default there is no such gain, and N elements pass N times as much as together.
    fn ln_in_amplitude(&self, frequency_hz: &[f64], ln_cross_section: &[f64], out: &mut [f64]) {
        let _ = frequency_hz;
        let ln_count = (self.extent().elements() as f64).ln();
        out.iter_mut().zip(ln_cross_section).for_each(|(sum, ln)| *sum = ln + ln_count);
    }

    /// All curves that a reading is made of, at many frequencies: what they have in common is worked out once.
    ///
    /// By default each from its own method, and equal to it for every leak. A leak whose curves share costly work (a
    /// door, whose sides give all three) does it here once.
    fn answer(&self, frequency_hz: &[f64], out: &mut Columns<'_>) {
        self.ln_cross_sections(frequency_hz, out.ln_cross_section);
        self.ln_in_amplitude(frequency_hz, out.ln_cross_section, out.ln_in_amplitude);
        if let Some(directivity) = out.directivity.as_deref_mut() {
            directivity.iter_mut().zip(frequency_hz).for_each(|(slot, &f)| *slot = self.directivity(f));
        }
    }

    /// How it is spread over the wall; of a leak that has several parts, its largest.
    fn extent(&self) -> Extent {
        Extent::Point
    }

    /// Calls `visit` with each part that has an extent, a directivity or a polarizability of its own: the cells
    /// of a vent, then the joint around them. Their cross-sections add up to that of the whole, and a test reads
    /// each by itself. By default the leak is all there is.
    fn each_part(&self, visit: &mut dyn FnMut(&dyn Leak)) {
        visit(self.as_leak());
    }

    /// Directivity of what one element radiates, in its strongest direction inside.
    ///
    /// 3 for a small hole: a dipole in front of a conducting plane.
    fn directivity(&self, frequency_hz: f64) -> f64 {
        let _ = frequency_hz;
        3.0
    }

    /// Quasi-static polarizabilities, where the leak is an opening small enough to have them.
    fn polarizability(&self, frequency_hz: f64) -> Option<Polarizability> {
        let _ = frequency_hz;
        None
    }

    /// Whether it is an opening, whose small elements are dipoles; a conductor through the wall is not.
    fn is_opening(&self) -> bool {
        true
    }

    /// The sheet, where the leak is a piece of one in the wall: a window.
    fn as_window(&self) -> Option<&dyn Sheet> {
        None
    }

    /// What a user of the result should be told about safety, where people or mains are involved.
    fn caution(&self) -> Option<&'static str> {
        None
    }

    /// Where the answer holds.
    fn validity(&self, frequency_hz: f64) -> Validity;
}

/// What a boxed leak can do; there for every [`Leak`] that can be compared and rebuilt.
pub trait LeakObject: AnyObject {
    /// The same behind a pointer.
    fn as_leak(&self) -> &dyn Leak;
    /// [`Rebuild::rebuild`] behind a pointer.
    ///
    /// # Errors
    /// Those of the constructor.
    fn rebuild_boxed(&self, knobs: &mut Knobs<'_>) -> Result<Arc<dyn Leak>>;
}

impl<T: Leak + Rebuild + PartialEq + 'static> LeakObject for T {
    fn as_leak(&self) -> &dyn Leak {
        self
    }
    fn rebuild_boxed(&self, knobs: &mut Knobs<'_>) -> Result<Arc<dyn Leak>> {
        Ok(Arc::new(self.rebuild(knobs)?))
    }
}
