//! The Python module `stillroom._core`: the only place that knows Python.
//!
//! A wrapper does four things: take, release the interpreter, call, give. Whatever is a question of
//! physics is answered in the core.

// Python reads the docstrings of what is exported; the wrappers themselves are private to the crate.
#![allow(missing_docs, missing_debug_implementations, clippy::must_use_candidate, clippy::needless_pass_by_value)]

mod air;
mod aperture;
mod array;
mod cavity;
mod class;
mod csv;
mod enclosure;
mod error;
mod filter;
mod filter_charge;
mod filter_design;
mod filter_elements;
mod filter_ends;
mod filter_files;
mod filter_housing;
mod filter_leak;
mod filter_lines;
mod filter_mains;
mod filter_parts;
mod hole_array;
mod honeycomb;
mod joint;
mod joint_contacts;
mod joint_door;
mod joint_knife_edge;
mod leak;
mod material;
mod near_field;
mod sheet;
mod sheet_sizing;
mod signals;
mod study;
mod tube;
mod wave;
mod waveguide;
mod waveguide_sizing;

/// Compiled core of stillroom.
#[pyo3::pymodule(name = "_core")]
mod core_module {
    // One line for each subject.
    #[pymodule_export]
    use super::air::{PyAir, fresh_air_m3_per_s};
    #[pymodule_export]
    use super::aperture::{
        PyCircularHole, PyCrossSlot, PyEllipticHole, PyPolarizability, PyRectangularSlot, PyRoundedSlot,
        slot_rule_of_thumb_db,
    };
    #[pymodule_export]
    use super::cavity::{PyBenchBox, PyBoxHole, PyBoxSlot, PyStripEquivalent};
    #[pymodule_export]
    use super::enclosure::{PyAntennaTest, PyEnclosure, PyRequirement};
    #[pymodule_export]
    use super::filter::PyLadder;
    #[pymodule_export]
    use super::filter_charge::{PyDischarge, PyStoredCharge};
    #[pymodule_export]
    use super::filter_design::{PyDesignLimits, PyFilterFind, PyLossGoal, PyPreferredSeries, PyPrototype, synthesise};
    #[pymodule_export]
    use super::filter_elements::{
        PyFeedthroughCapacitor, PyLossyLine, PyMeasuredTwoPort, PySeries, PyShunt, tubular_electrode_inductance_h,
    };
    #[pymodule_export]
    use super::filter_ends::{PyImpedanceRegion, PyLineNetwork, PyMeasuringCircuit, PyWire, PyWorstTerminations};
    #[pymodule_export]
    use super::filter_files::{PyMeasuredLoss, PyTouchstone};
    #[pymodule_export]
    use super::filter_housing::{PyHousing, strap_inductance_h};
    #[pymodule_export]
    use super::filter_leak::{PyConductor, PyFilteredLine};
    #[pymodule_export]
    use super::filter_lines::{
        PyBetweenLines, PyCommonModeChoke, PyInEachLine, PyLineFilter, PyLinesToCase, PyModalTermination, PyStarPoint,
    };
    #[pymodule_export]
    use super::filter_mains::{PyEarthLeakage, PyLeakageCase, PyMainsDuty, PyMainsSupply};
    #[pymodule_export]
    use super::filter_parts::{PyCapacitor, PyFerriteBead, PyInductor, PyResistor};
    #[pymodule_export]
    use super::hole_array::{PyHoleArray, PyHoleGrid, PyHolePlaces, PyRandomHoles};
    #[pymodule_export]
    use super::honeycomb::{
        PyFoilPanel, PyFrameJoint, PyHexagonalCell, PyHoneycombPanel, PyRoundCell, PySquareCell, PyUnbondedNodes,
        cells_apart_rule_db, cells_in_step_rule_db,
    };
    #[pymodule_export]
    use super::joint::{PyContactLine, PySeam};
    #[pymodule_export]
    use super::joint_contacts::{PyContactsBeside, PyFingerRow, PyGasket, PyImpedanceTable};
    #[pymodule_export]
    use super::joint_door::{PyDoor, PyGasketLine};
    #[pymodule_export]
    use super::joint_knife_edge::PyKnifeEdge;
    #[pymodule_export]
    use super::leak::{PyLeak, PyPanel, PyTabulatedLeak};
    #[pymodule_export]
    use super::material::{
        PyMaterial, PyPermeabilityTable, PyPowerLaw, PyRelaxingPermeability, catalogue, catalogue_names,
    };
    #[pymodule_export]
    use super::near_field::{
        PyClosedShell, PyLoopTest, PyRodTest, PyRoomEstimate, handbook_reflection_db, near_shielding_db, near_split,
        near_wave_impedance_ohm, room_in_uniform_field,
    };
    #[pymodule_export]
    use super::sheet::{
        PyFabric, PyFilm, PyLaminate, PyLossSplit, PyPerforatedSheet, PySheet, PyWireMesh, galvanised_steel,
    };
    #[pymodule_export]
    use super::sheet_sizing::{PySizing, rough_surface_resistance_ohm, roughness_factor, size_laminate};
    #[pymodule_export]
    use super::study::PyStudy;
    #[pymodule_export]
    use super::tube::{
        PyBondedShield, PyBraidTable, PyMeasuredShield, PyRod, PyThroughWire, PyTube, PyWallBond,
        rectangular_tube_rule_db, round_tube_rule_db,
    };
    #[pymodule_export]
    use super::wave::PyPlaneWave;
    #[pymodule_export]
    use super::waveguide::{PyCircularGuide, PyCoaxialGuide, PyHexagonalGuide, PyMode, PyRectangularGuide};
    #[pymodule_export]
    use super::waveguide_sizing::{size_tube, size_vent};
}
