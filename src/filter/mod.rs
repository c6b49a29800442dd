//! Filters: what comes in on the wires, and what keeps it out.
//!
//! Every wire is an antenna that walks through the wall. A [`Ladder`] of parts with their parasitics is
//! judged by its insertion loss between any source and load ([`MeasuringCircuit`]), and as a [`FilteredLine`]
//! takes its place among the leaks.
//!
//! **Caution.** Capacitors to earth carry current in the protective conductor at mains frequency; if that
//! conductor is open, the case is live. Bond the case before energising, keep to the local code, and leave
//! mains work to a licensed electrician. Nothing here replaces their judgement. ([`CAUTION`])

mod bank;
mod capacitor;
mod charge_network;
mod choke;
mod circuit;
mod coupled_lanes;
mod coupled_response;
mod design_limits;
mod discharge;
mod feedthrough;
mod ferrite;
mod filtered_line;
mod goal;
mod housing;
mod inductor;
mod ladder;
mod leakage;
mod line_filter;
mod line_matrix;
mod line_mode;
mod lossy_line;
mod lot;
mod mains;
mod mains_limits;
mod mains_sums;
mod measured;
mod measured_loss;
mod part;
mod preferred;
mod prototype;
mod record;
mod region;
mod region_search;
mod resistor;
mod saturation;
mod sensitivity;
mod stored_charge;
mod supply;
mod switch;
mod synthesis;
mod tangency;
mod touchstone;
mod volt_drop;

pub use bank::Bank;
pub use capacitor::Capacitor;
pub use charge_network::ChargedNode;
pub use choke::CommonModeChoke;
pub use circuit::{MeasuringCircuit, Termination, Wire};
pub use design_limits::DesignLimits;
pub use feedthrough::{FeedthroughCapacitor, tubular_electrode_inductance_h};
pub use ferrite::FerriteBead;
pub use filtered_line::{Conductor, FilteredLine, LineLoss};
pub use goal::LossGoal;
pub use housing::{Housing, strap_inductance_h};
pub use inductor::Inductor;
pub use ladder::{Element, Ladder};
pub use leakage::{EarthLeakage, Held, LeakageCase};
pub use line_filter::LineFilter;
pub use line_mode::{LineMode, ModalTermination};
pub use lossy_line::LossyLine;
pub use lot::Lot;
pub use mains::MainsDuty;
pub use mains_limits::{ExceededLimit, MainsLimits};
pub use measured::MeasuredTwoPort;
pub use measured_loss::MeasuredLoss;
pub use part::Part;
pub use preferred::PreferredSeries;
pub use prototype::{Prototype, PrototypeFamily};
pub use region::ImpedanceRegion;
pub use region_search::{WorstTerminations, worst_terminations};
pub use resistor::Resistor;
pub use saturation::Saturation;
pub use sensitivity::Sensitivity;
pub use stored_charge::{DISCHARGE_CAUTION, Discharge, StoredCharge, SwitchingOff};
pub use supply::{MainsSupply, SupplySystem};
pub use synthesis::{Find, ranked_by_yield, synthesise, synthesise_watched};
pub use touchstone::{FrequencyUnit, NetworkParameter, NoisePoint, PairFormat, Touchstone};

/// What a user of a mains filter should be told beside any result.
pub const CAUTION: &str = "Mains filters put current into the protective earth: bond the case before energising, \
     check touch and earth-leakage current against the code that applies, and leave the work to a licensed electrician.";
