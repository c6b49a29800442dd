//! How the modes of a guide look from outside: their Fourier transforms over the opening.
//!
//! Each cross-section gives its modes in units of its own size, gathered in blocks that do not couple
//! to one another. A block meets the half-space in front of a tube through an integral over all
//! transverse wavenumbers ([`half_space`]), and the free space in front of a honeycomb through a sum
//! over the lattice's harmonics; both use the same transforms.

pub(crate) mod circle;
pub(crate) mod half_space;
pub(crate) mod hexagon;
pub(crate) mod hexagon_table;
pub(crate) mod lattice;
pub(crate) mod rectangle;
pub(crate) mod truncation;

use half_space::{Below, HalfSpace};
use nalgebra::DMatrix;
use num_complex::Complex64;
use truncation::Truncations;

/// Which longitudinal field a mode has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum ModeFamily {
    /// Transverse electric: no electric field along the guide.
    Te,
    /// Transverse magnetic: no magnetic field along the guide.
    Tm,
    /// Transverse electromagnetic: no cutoff; only with an inner conductor.
    Tem,
}

impl ModeFamily {
    /// Its usual short name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Te => "TE",
            Self::Tm => "TM",
            Self::Tem => "TEM",
        }
    }
}

/// Mirror symmetry of a scalar field about the two axes of a cross-section.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) struct Parity {
    /// Unchanged under x → −x.
    pub(crate) even_x: bool,
    /// Unchanged under y → −y.
    pub(crate) even_y: bool,
}

impl Parity {
    pub(crate) const fn new(even_x: bool, even_y: bool) -> Self {
        Self { even_x, even_y }
    }

    /// Symmetry of E_x of a mode whose potential has this symmetry; E_y has the opposite in both axes.
    pub(crate) fn of_ex(self, family: ModeFamily) -> Self {
        match family {
            ModeFamily::Te => Self::new(self.even_x, !self.even_y),
            _ => Self::new(!self.even_x, self.even_y),
        }
    }
}

/// Modes that couple to one another at the end of a guide, by rising cutoff.
#[derive(Debug, Clone)]
pub(crate) struct Block {
    /// How many blocks like this one there are.
    pub(crate) count: f64,
    pub(crate) modes: Vec<Member>,
    /// Nested sets of them.
    pub(crate) truncations: Truncations,
    /// What the half-space answers.
    pub(crate) space: Space,
}

/// One mode of a block, in units of the size.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Member {
    pub(crate) family: ModeFamily,
    /// Cutoff wavenumber.
    pub(crate) cutoff: f64,
    /// Wall integrals, as [`crate::waveguide::Mode`] has them.
    pub(crate) wall: [f64; 2],
}

/// What the half-space answers to the modes of a block.
#[derive(Debug, Clone)]
pub(crate) enum Space {
    /// At any wavenumber.
    Table(HalfSpace),
    /// Up to some wavenumber.
    Below(Below),
}

impl Space {
    /// The admittance matrix in units of 1/η₀ at the normalised wavenumber `k`.
    pub(crate) fn admittance(&self, k: f64) -> DMatrix<Complex64> {
        match self {
            Self::Table(table) => table.admittance(k),
            Self::Below(below) => below.admittance(k),
        }
    }

    /// The same up to the wavenumber `top` only, for openings as wide as `extent`.
    pub(crate) fn below(self, top: f64, extent: f64) -> Self {
        match self {
            Self::Table(table) => Self::Below(table.below(top, extent)),
            below @ Self::Below(_) => below,
        }
    }
}

impl Block {
    /// Its modes as family and cutoff.
    pub(crate) fn families_and_cutoffs(&self) -> Vec<(ModeFamily, f64)> {
        self.modes.iter().map(|mode| (mode.family, mode.cutoff)).collect()
    }
}
