//! Eigenvalues of the regular hexagon of unit side, computed once by [`super::hexagon`]; the tests compute them again.
//!
//! Wavenumbers hold to 1e-11, wall integrals to 1e-6. Three TE pairs (4π/3, 8π/3, 4π√7/3) have equal cutoffs by accident, not
//! by symmetry, and stand as single modes: their walls differ.

use super::hexagon::INRADIUS;
use super::{ModeFamily, Parity};

/// A mode or a pair of modes that a turn of the hexagon carries into one another.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Entry {
    pub(crate) family: ModeFamily,
    /// Cutoff wavenumber times the side.
    pub(crate) cutoff: f64,
    /// Symmetry of the potential, one for each member of the pair.
    pub(crate) parities: &'static [Parity],
    /// ∮(∂ψ/∂t)² dl / (k_c² ∫ψ² dA) times the side; zero on a wall where ψ vanishes.
    pub(crate) along_wall: f64,
}

impl Entry {
    /// Wall integrals in units of the side, as [`crate::waveguide::Mode`] has them.
    ///
    /// On flats all at the distance r from the centre Rellich's identity gives ∮(∂ψ/∂n)² = (2/r) k_c²∫ψ² (TM), and for TE
    /// ∮ψ² − ∮(∂ψ/∂t)²/k_c² = (2/r)∫ψ² (F. Rellich, Math. Z. 46 (1940) 635).
    pub(crate) fn wall(&self) -> [f64; 2] {
        let rellich = 2.0 / INRADIUS;
        match self.family {
            ModeFamily::Te => [rellich + self.along_wall, self.along_wall],
            _ => [rellich, 0.0],
        }
    }
}

const EE: Parity = Parity::new(true, true);
const EO: Parity = Parity::new(true, false);
const OE: Parity = Parity::new(false, true);
const OO: Parity = Parity::new(false, false);

const fn entry(family: ModeFamily, cutoff: f64, parities: &'static [Parity], along_wall: f64) -> Entry {
    Entry { family, cutoff, parities, along_wall }
}

/// All tabulated modes, TE first, each family by rising cutoff.
pub(crate) const TABLE: [Entry; 43] = [
    entry(ModeFamily::Te, 2.010_778_631_921, &[EO, OE], 1.001_560_9),
    entry(ModeFamily::Te, 3.297_191_971_048, &[EE, OO], 1.899_181_3),
    entry(ModeFamily::Te, 4.188_790_204_785, &[EE], 0.107_206_2),
    entry(ModeFamily::Te, 4.188_790_204_785, &[OE], 2.971_995_2),
    entry(ModeFamily::Te, 4.989_846_505_108, &[EO], 1.857_752_3),
    entry(ModeFamily::Te, 5.737_087_476_606, &[EO, OE], 0.644_234_2),
    entry(ModeFamily::Te, 5.783_379_772_046, &[EE, OO], 2.862_827_2),
    entry(ModeFamily::Te, 7.063_921_651_449, &[EO, OE], 3.144_731_3),
    entry(ModeFamily::Te, 7.255_197_456_936, &[EE], 2.309_401_1),
    entry(ModeFamily::Te, 7.400_820_808_154, &[EE, OO], 0.374_236_6),
    entry(ModeFamily::Te, 8.377_580_409_573, &[EE], 2.255_798_0),
    entry(ModeFamily::Te, 8.377_580_409_573, &[OE], 0.823_403_5),
    entry(ModeFamily::Te, 8.468_247_061_161, &[OO], 3.508_909_7),
    entry(ModeFamily::Te, 8.969_299_338_370, &[EO, OE], 2.581_452_0),
    entry(ModeFamily::Te, 9.155_808_574_563, &[EO], 0.343_624_5),
    entry(ModeFamily::Te, 9.783_970_251_722, &[EE, OO], 2.173_910_5),
    entry(ModeFamily::Te, 9.826_988_644_169, &[EO, OE], 1.926_552_7),
    entry(ModeFamily::Te, 10.572_633_998_814, &[EE, OO], 2.628_816_8),
    entry(ModeFamily::Te, 11.082_497_176_096, &[OE], 4.314_753_4),
    entry(ModeFamily::Te, 11.082_497_176_096, &[EE], 0.304_048_8),
    entry(ModeFamily::Te, 11.329_109_942_079, &[EE, OO], 1.033_516_3),
    entry(ModeFamily::Te, 11.405_540_411_120, &[EO, OE], 1.066_539_4),
    entry(ModeFamily::Te, 11.851_183_079_560, &[EO], 4.610_767_5),
    entry(ModeFamily::Tm, 2.674_946_566_552, &[EE], 0.0),
    entry(ModeFamily::Tm, 4.258_130_794_788, &[EO, OE], 0.0),
    entry(ModeFamily::Tm, 5.696_653_185_371, &[EE, OO], 0.0),
    entry(ModeFamily::Tm, 6.123_018_281_614, &[EE], 0.0),
    entry(ModeFamily::Tm, 6.901_403_174_273, &[OE], 0.0),
    entry(ModeFamily::Tm, 7.255_197_456_938, &[EO], 0.0),
    entry(ModeFamily::Tm, 7.752_748_679_930, &[EO, OE], 0.0),
    entry(ModeFamily::Tm, 8.374_984_397_122, &[EE, OO], 0.0),
    entry(ModeFamily::Tm, 9.355_850_839_883, &[EE, OO], 0.0),
    entry(ModeFamily::Tm, 9.489_908_806_968, &[EE], 0.0),
    entry(ModeFamily::Tm, 9.712_134_713_421, &[EO, OE], 0.0),
    entry(ModeFamily::Tm, 10.504_986_382_243, &[OE], 0.0),
    entry(ModeFamily::Tm, 10.993_978_778_637, &[EE], 0.0),
    entry(ModeFamily::Tm, 11.082_497_176_090, &[EO, OO], 0.0),
    entry(ModeFamily::Tm, 11.182_372_997_373, &[EO, OE], 0.0),
    entry(ModeFamily::Tm, 12.061_576_750_972, &[EE, OO], 0.0),
    entry(ModeFamily::Tm, 12.355_729_139_314, &[EO, OE], 0.0),
    entry(ModeFamily::Tm, 12.865_244_894_138, &[EE, OO], 0.0),
    entry(ModeFamily::Tm, 12.993_102_375_442, &[EE], 0.0),
    entry(ModeFamily::Tm, 13.543_867_724_250, &[EO, OE], 0.0),
];
