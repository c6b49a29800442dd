//! Closed shells in a uniform low-frequency magnetic field: sphere, long cylinder, and the room that
//! is neither.
//!
//! Outside and inside the shell the field is quasi-static (the shell is small against the
//! wavelength); in its layers eddy currents and permeability are exact at any thickness. The
//! shielding factor is the field without the shell over the field inside. For a single layer of a
//! non-magnetic metal of radius R and thickness t ≪ R (H. Kaden, *Wirbelströme und Schirmung in der
//! Nachrichtentechnik*, 2nd ed., 1959, ch. C, from memory)
//!
//! sphere S ≈ cosh γt + (γR/3) sinh γt, cylinder across S ≈ cosh γt + (γR/2) sinh γt,
//! cylinder along S ≈ cosh γt + (γR/2) sinh γt,
//!
//! and for a static field (J. D. Jackson, *Classical Electrodynamics*, 3rd ed., sec. 5.12; the
//! cylinder likewise), a inner and b outer radius,
//!
//! sphere S = ((2μ+1)(μ+2) − 2(a/b)³(μ−1)²)/(9μ), cylinder S = ((μ+1)² − (a/b)²(μ−1)²)/(4μ).
//!
//! Both are limits of what is computed here.
//!
//! Where a loop test and this answer differ: a loop 0.3 m from the wall drives currents over about
//! a square metre of it, whatever the size of the room, while in a uniform field they flow around
//! the whole room. A metal room therefore shields a uniform field better than the loop test says,
//! in proportion to its size, and one of high permeability shields a static field worse.

use num_complex::Complex64;

use super::laminate::Layer;
use super::round_layer::{Radial, Transfer};
use crate::choice::choice;
use crate::constants::{wavelength_m, wavenumber_per_m};
use crate::decibel::LogTransmission;
use crate::error::{Error, Result, check};
use crate::material::{Material, Medium};
use crate::parameter::{Domain, Knobs, Rebuild};
use crate::validity::Validity;

/// Shape of a closed shell and direction of the field.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub enum ShellShape {
    /// A sphere.
    Sphere,
    /// A long cylinder, the field across its axis.
    CylinderAcross,
    /// A long cylinder, the field along its axis. A static field is not shielded at all.
    CylinderAlong,
}

choice!(ShellShape, "shell shape" { Sphere => "sphere", CylinderAcross => "cylinder across", CylinderAlong => "cylinder along" });

impl ShellShape {
    fn radial(self) -> Radial {
        match self {
            Self::Sphere => Radial::Sphere,
            Self::CylinderAcross => Radial::CylinderAcross,
            Self::CylinderAlong => Radial::CylinderAlong,
        }
    }
}

/// Radii of the space inside that are computed, m: within them nothing under- or overflows.
const RADII_M: (f64, f64) = (1e-6, 1e6);
/// Thicknesses likewise, m.
const THICKNESSES_M: (f64, f64) = (1e-12, 1e6);

/// One layer of a shell.
#[derive(Debug, Clone, PartialEq)]
struct ShellLayer {
    material: Material,
    thickness_m: f64,
}

/// A closed shell of one or more layers, the first one innermost.
///
/// ```
/// use stillroom::{Layer, material::Material, sheet::{ClosedShell, ShellShape}};
/// // Static field, sphere of outer radius 0.1 m, 1 mm thick, permeability 1000: 7.587 (Jackson,
/// // Classical Electrodynamics, sec. 5.12; value derived).
/// let iron = Material::conductor("iron", 1e7, 1000.0)?;
/// let shell = ClosedShell::new(ShellShape::Sphere, 0.099, vec![Layer::slab(iron, 1e-3)?])?;
/// assert!((shell.static_shielding_factor() - 7.587).abs() < 0.001);
/// # Ok::<(), stillroom::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "Record", into = "Record")
)]
pub struct ClosedShell {
    shape: ShellShape,
    inner_radius_m: f64,
    layers: Vec<ShellLayer>,
}

impl ClosedShell {
    /// A shell by its inner radius in metres and its layers from inside out.
    ///
    /// # Errors
    /// For a radius outside 1 µm to 1000 km or a thickness outside 1 pm to 1000 km, for no layers, and
    /// for layers that are not a material with a thickness.
    pub fn new(shape: ShellShape, inner_radius_m: f64, layers: Vec<Layer>) -> Result<Self> {
        check::within("inner_radius_m", "m", inner_radius_m, RADII_M, "from 1e-6 to 1e6")?;
        check::not_empty("layers", &layers)?;
        let layers = layers
            .into_iter()
            .enumerate()
            .map(|(place, layer)| match layer {
                Layer::Slab { material, thickness_m } => {
                    check::within("thickness_m", "m", thickness_m, THICKNESSES_M, "from 1e-12 to 1e6")
                        .map_err(|error| error.within(&format!("layers.{place}")))?;
                    Ok(ShellLayer { material, thickness_m })
                }
                other => Err(Error::UnknownName {
                    kind: "layer of a closed shell".into(),
                    name: other.kind().to_owned(),
                    known: vec!["slab".to_owned()],
                }),
            })
            .collect::<Result<_>>()?;
        Ok(Self { shape, inner_radius_m, layers })
    }

    /// Shape and direction of the field.
    #[must_use]
    pub fn shape(&self) -> ShellShape {
        self.shape
    }

    /// Radius of the space inside, m.
    #[must_use]
    pub fn inner_radius_m(&self) -> f64 {
        self.inner_radius_m
    }

    /// Outer radius, m.
    #[must_use]
    pub fn outer_radius_m(&self) -> f64 {
        self.inner_radius_m + self.layers.iter().map(|layer| layer.thickness_m).sum::<f64>()
    }

    /// The layers from inside out.
    #[must_use]
    pub fn layers(&self) -> Vec<Layer> {
        let slab =
            |layer: &ShellLayer| Layer::Slab { material: layer.material.clone(), thickness_m: layer.thickness_m };
        self.layers.iter().map(slab).collect()
    }

    /// Field inside over the field without the shell, as its logarithm.
    ///
    /// Domain: finite positive frequency in Hz.
    #[must_use]
    pub fn transmission(&self, frequency_hz: f64) -> LogTransmission {
        let k = wavenumber_per_m(frequency_hz);
        LogTransmission(-self.ln_factor(|material| {
            let medium = material.medium(frequency_hz);
            let square = -k * k * medium.relative_permittivity * medium.relative_permeability;
            (crate::complex_functions::decaying_root(square), medium)
        }))
    }

    /// Shielding effectiveness in a uniform field, dB.
    ///
    /// Domain: finite positive frequency in Hz.
    #[must_use]
    pub fn shielding_db(&self, frequency_hz: f64) -> f64 {
        self.transmission(frequency_hz).shielding_db()
    }

    /// Field without the shell over the field inside, for a static field.
    ///
    /// The permeability is that of the lowest frequency its model knows; earth-field bias, remanence
    /// and saturation are not in it.
    #[must_use]
    pub fn static_shielding_factor(&self) -> f64 {
        if self.shape == ShellShape::CylinderAlong {
            return 1.0;
        }
        // Low enough for every model of permeability to have settled, and still a number.
        const NEARLY_STATIC_HZ: f64 = 1e-9;
        self.ln_factor(|material| {
            let permeability = material.medium(NEARLY_STATIC_HZ).relative_permeability.re.into();
            (Complex64::ZERO, Medium { relative_permeability: permeability, ..Medium::VACUUM })
        })
        .re
        .exp()
    }

    /// ln of the shielding factor, from each layer's propagation constant and medium.
    fn ln_factor(&self, at: impl Fn(&Material) -> (Complex64, Medium)) -> Complex64 {
        let shape = self.shape;
        let mut radius = self.inner_radius_m;
        // (value, weighted slope), continuous at every face, for a field of one inside.
        let mut state = match shape {
            ShellShape::Sphere => [radius * radius, 2.0 * radius],
            ShellShape::CylinderAcross => [radius, 1.0],
            // E_phi over jωμ₀, the slope of H over γ²/μ.
            ShellShape::CylinderAlong => [1.0, 0.5 * radius],
        }
        .map(Complex64::from);
        let mut ln_scale = 0.0;
        for layer in &self.layers {
            let (gamma, medium) = at(&layer.material);
            let weight = match shape {
                ShellShape::Sphere | ShellShape::CylinderAcross => medium.relative_permeability,
                ShellShape::CylinderAlong => gamma * gamma / medium.relative_permeability,
            };
            let Transfer { entries, ln_scale: nepers } =
                Transfer::across(shape.radial(), gamma, radius, layer.thickness_m);
            let slope = state[1] * weight;
            let (value, slope) =
                (entries[0][0] * state[0] + entries[0][1] * slope, entries[1][0] * state[0] + entries[1][1] * slope);
            // Many layers could overflow together: keep the pair of order one.
            let size = value.norm().max(f64::MIN_POSITIVE);
            state = [value / size, slope / weight / size];
            ln_scale += nepers + size.ln();
            radius += layer.thickness_m;
        }
        // Split into the uniform field and what the shell radiates.
        let uniform = match shape {
            ShellShape::Sphere => (state[0] + radius * state[1]) / (3.0 * radius * radius),
            ShellShape::CylinderAcross => (state[0] + radius * state[1]) / (2.0 * radius),
            ShellShape::CylinderAlong => state[0],
        };
        uniform.ln() + ln_scale
    }

    /// Holds while the shell is small against the wavelength (outer radius below λ/20).
    pub fn validity(&self, frequency_hz: f64) -> Validity {
        let size = small_against_wavelength(self.outer_radius_m(), frequency_hz);
        self.layers.iter().fold(size, |validity, layer| validity.and(layer.material.validity(frequency_hz)))
    }
}

/// Shielding of a rectangular room in a uniform field by spheres, dB.
///
/// The default is that of no wall at all: zeros.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct RoomEstimate {
    /// Of the sphere with the room's ratio of volume to surface.
    pub shielding_db: f64,
    /// The lowest of the spheres from the inscribed to the circumscribed one.
    pub lowest_db: f64,
    /// The highest of them.
    pub highest_db: f64,
}

/// Estimate of a rectangular room's shielding in a uniform low-frequency magnetic field, with
/// spheres as bounds.
///
/// The estimate takes the sphere of inner radius 3V/S (volume over surface), which gives a cube the
/// inscribed sphere. In thin metal the shielding of an eddy-current shield grows with the radius; in
/// a static field that of a permeable one falls with it. All radii between the inscribed sphere
/// (half the shortest side) and the circumscribed one (half the diagonal) are scanned, and their
/// lowest and highest value are the bounds. They enclose the published thin-shell result for a
/// permeable cube, 1 + (4/5) μt/a (a the side), and the limits of long and of flat metal boxes,
/// where currents run in belts (derived: S → jωμ₀σt · area/perimeter of the belt). They are bounds
/// for plain closed boxes and not a proof for every field direction; corners, doors and seams are
/// not in them.
///
/// # Errors
/// For a dimension or thickness that is not positive and finite, no layers, or a frequency that is
/// not positive and finite.
pub fn room_in_uniform_field(interior_m: [f64; 3], layers: &[Layer], frequency_hz: f64) -> Result<RoomEstimate> {
    check::all_positive("interior_m", "m", &interior_m)?;
    check::frequency(frequency_hz)?;
    let [a, b, c] = interior_m;
    let at = |radius: f64| {
        Ok::<_, Error>(ClosedShell::new(ShellShape::Sphere, radius, layers.to_vec())?.shielding_db(frequency_hz))
    };
    let estimate = at(1.5 * a * b * c / (a * b + b * c + c * a))?;
    let inscribed = 0.5 * a.min(b).min(c);
    let circumscribed = 0.5 * (a * a + b * b + c * c).sqrt();
    /// Radii to look at: the curve between has at most one turn.
    const RADII: i32 = 16;
    let (mut lowest, mut highest) = (estimate, estimate);
    for step in 0..=RADII {
        let radius = inscribed * (circumscribed / inscribed).powf(f64::from(step) / f64::from(RADII));
        let value = at(radius)?;
        lowest = lowest.min(value);
        highest = highest.max(value);
    }
    Ok(RoomEstimate { shielding_db: estimate, lowest_db: lowest, highest_db: highest })
}

/// Holds while half the room's diagonal is below λ/20.
pub fn room_validity(interior_m: [f64; 3], frequency_hz: f64) -> Validity {
    let [a, b, c] = interior_m;
    small_against_wavelength(0.5 * (a * a + b * b + c * c).sqrt(), frequency_hz)
}

fn small_against_wavelength(radius_m: f64, frequency_hz: f64) -> Validity {
    Validity::within(
        "closed shell",
        "outer radius / wavelength",
        "",
        radius_m / wavelength_m(frequency_hz),
        (0.0, 0.05),
        "the field outside is no longer quasi-static and the space inside comes to resonate",
    )
}

impl Rebuild for ClosedShell {
    fn rebuild(&self, knobs: &mut Knobs<'_>) -> Result<Self> {
        let inner_radius_m = knobs.value("inner_radius_m", "m", self.inner_radius_m, Domain::POSITIVE);
        let layers = self
            .layers()
            .iter()
            .enumerate()
            .map(|(place, layer)| knobs.enter(&format!("layers.{place}"), |knobs| layer.rebuild(knobs)))
            .collect::<Result<_>>()?;
        Self::new(self.shape, inner_radius_m, layers)
    }
}

#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    shape: ShellShape,
    inner_radius_m: f64,
    layers: Vec<Layer>,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for ClosedShell {
    type Error = Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::new(record.shape, record.inner_radius_m, record.layers)
    }
}

#[cfg(feature = "serde")]
impl From<ClosedShell> for Record {
    fn from(shell: ClosedShell) -> Self {
        Self { shape: shell.shape, inner_radius_m: shell.inner_radius_m, layers: shell.layers() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shell(shape: ShellShape, sigma: f64, mu: f64, inner: f64, thickness: f64) -> ClosedShell {
        let metal = Material::conductor("metal", sigma, mu).unwrap();
        ClosedShell::new(shape, inner, vec![Layer::slab(metal, thickness).unwrap()]).unwrap()
    }

    #[test]
    fn static_limits_are_the_closed_forms() {
        for mu in [1.0, 3.0, 1000.0, 20000.0_f64] {
            for ratio in [0.5, 0.99, 0.99999_f64] {
                let b = 0.1;
                let a = ratio * b;
                let sphere = ((2.0 * mu + 1.0) * (mu + 2.0) - 2.0 * ratio.powi(3) * (mu - 1.0).powi(2)) / (9.0 * mu);
                let found = shell(ShellShape::Sphere, 1e7, mu, a, b - a).static_shielding_factor();
                assert!((found / sphere - 1.0).abs() < 1e-9, "{mu} {ratio} {found} {sphere}");
                let cylinder = ((mu + 1.0).powi(2) - ratio.powi(2) * (mu - 1.0).powi(2)) / (4.0 * mu);
                let found = shell(ShellShape::CylinderAcross, 1e7, mu, a, b - a).static_shielding_factor();
                assert!((found / cylinder - 1.0).abs() < 1e-9, "{mu} {ratio} {found} {cylinder}");
            }
        }
    }

    #[test]
    fn alternating_fields_tend_to_static_ones() {
        for shape in [ShellShape::Sphere, ShellShape::CylinderAcross] {
            let magnetic = shell(shape, 1e6, 1000.0, 0.1, 1e-3);
            let ratio = magnetic.transmission(1e-6).ln().re + magnetic.static_shielding_factor().ln();
            assert!(ratio.abs() < 1e-6, "{shape:?} {ratio}");
        }
        assert!(shell(ShellShape::CylinderAlong, 1e6, 1000.0, 0.1, 1e-3).shielding_db(1e-6) < 1e-6);
    }

    #[test]
    fn splitting_a_layer_changes_nothing() {
        let metal = Material::conductor("metal", 5.8e6, 200.0).unwrap();
        let parts = vec![
            Layer::slab(metal.clone(), 0.4e-3).unwrap(),
            Layer::slab(metal.clone(), 1.1e-3).unwrap(),
            Layer::slab(metal.clone(), 0.5e-3).unwrap(),
        ];
        for shape in [ShellShape::Sphere, ShellShape::CylinderAcross, ShellShape::CylinderAlong] {
            let one = ClosedShell::new(shape, 0.5, vec![Layer::slab(metal.clone(), 2e-3).unwrap()]).unwrap();
            let three = ClosedShell::new(shape, 0.5, parts.clone()).unwrap();
            for f in [0.1, 50.0, 1e3, 1e5, 1e8] {
                let (a, b) = (one.shielding_db(f), three.shielding_db(f));
                assert!((a - b).abs() < 1e-9 * a.abs().max(1e-3), "{shape:?} {f} {a} {b}");
            }
        }
    }

    #[test]
    fn a_film_is_no_layer_of_a_shell() {
        let error = ClosedShell::new(ShellShape::Sphere, 0.5, vec![Layer::film(1.0).unwrap()]).unwrap_err();
        assert_eq!(error.to_string(), "unknown layer of a closed shell \"film\": known are slab");
        assert!(ClosedShell::new(ShellShape::Sphere, -0.5, vec![]).is_err());
        assert!(ClosedShell::new(ShellShape::Sphere, 0.5, vec![]).is_err());
    }

    #[test]
    fn a_vanishing_cavity_is_refused_and_a_tiny_one_computed() {
        let wall = || vec![Layer::slab(Material::conductor("metal", 1e7, 100.0).unwrap(), 1e-3).unwrap()];
        assert!(ClosedShell::new(ShellShape::CylinderAcross, 5e-324, wall()).is_err());
        for shape in [ShellShape::Sphere, ShellShape::CylinderAcross, ShellShape::CylinderAlong] {
            assert!(ClosedShell::new(shape, 1e-6, wall()).unwrap().shielding_db(50.0).is_finite());
        }
    }

    #[test]
    fn a_permeable_cube_lies_between_its_spheres() {
        // 1 + (4/5) μ t/a for a thin cube of side a (trade tables, read: references of thin shells).
        let (mu, thickness, side) = (20000.0, 1e-3, 1.0);
        let metal = Material::conductor("metal", 1e6, mu).unwrap();
        let layers = [Layer::slab(metal, thickness).unwrap()];
        let room = room_in_uniform_field([side; 3], &layers, 1e-4).unwrap();
        let published = 20.0 * (1.0 + 0.8 * mu * thickness / side).log10();
        assert!(room.lowest_db < published && published < room.highest_db, "{room:?} {published}");
    }
}
