//! The Python module `stillroom._core`: the only place that knows Python.
//!
//! A wrapper does four things: take, release the interpreter, call, give. Whatever is a question of
//! physics is answered in the core.

// Python reads the docstrings of what is exported; the wrappers themselves are private to the crate.
#![allow(missing_docs, missing_debug_implementations, clippy::must_use_candidate, clippy::needless_pass_by_value)]

mod array;
mod class;
mod enclosure;
mod error;
mod filter;
mod leak;
mod material;
mod sheet;
mod wave;
mod waveguide;

/// Compiled core of stillroom.
#[pyo3::pymodule(name = "_core")]
mod core_module {
    // One line for each subject.
    #[pymodule_export]
    use super::enclosure::{PyAntennaTest, PyEnclosure, PyRequirement, PyStudy};
    #[pymodule_export]
    use super::filter::{
        PyCapacitor, PyConductor, PyFilteredLine, PyHousing, PyInductor, PyLadder, PyLineNetwork, PyMeasuringCircuit,
        PyResistor, PySeries, PyShunt, PyWire, strap_inductance_h,
    };
    #[pymodule_export]
    use super::leak::{PyLeak, PyPanel, PyTabulatedLeak};
    #[pymodule_export]
    use super::material::{
        PyMaterial, PyPermeabilityTable, PyPowerLaw, PyRelaxingPermeability, catalogue, catalogue_names,
    };
    #[pymodule_export]
    use super::sheet::{PyFilm, PyLaminate, PyLossSplit, PySheet};
    #[pymodule_export]
    use super::wave::PyPlaneWave;
    #[pymodule_export]
    use super::waveguide::{
        PyAir, PyBondedShield, PyCircularGuide, PyHexagonalCell, PyHexagonalGuide, PyHoneycombPanel, PyMode,
        PyRectangularGuide, PyRod, PyRoundCell, PySquareCell, PyThroughWire, PyTube, PyWallBond, cells_apart_rule_db,
        cells_in_step_rule_db, fresh_air_m3_per_s, rectangular_tube_rule_db, round_tube_rule_db, size_tube, size_vent,
    };
}
