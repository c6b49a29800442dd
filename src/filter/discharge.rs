//! How a network of capacitances and conductances discharges: its modes, and the last moment above a voltage.
//!
//! `C dv/dt = -G v`. Both matrices are positive semidefinite, so with `S = C/c + G/g`, `S = L L^T`, the symmetric matrix
//! `L^-1 (C/c) L^-T` has eigenvalues `m` from 0 to 1, each a mode of rate `(g/c)(1 - m)/m`: 0 is a mode without
//! capacitance (gone at once), 1 a mode without conductance (there for ever). How many there are of the latter is counted
//! on the graph, so that no threshold decides what 'for ever' is.

use nalgebra::{DMatrix, SymmetricEigen};

use super::charge_network::{ChargeNetwork, Way};

/// Modes of the network when nothing is connected to it.
#[derive(Debug, Clone)]
pub(super) struct Modes {
    // Voltages of the modes in columns, and what turns voltages of the nodes into their amplitudes.
    shapes: DMatrix<f64>,
    amplitudes: DMatrix<f64>,
    // 1/s: zero for ever, infinite gone at once.
    rates: Vec<f64>,
    // Nodes whose potential nothing ties to the case, by the island that they are on.
    pub(super) floating: Vec<Option<usize>>,
}

impl Modes {
    /// None if the numbers have no factorisation: values too far apart for double precision.
    pub(super) fn of(network: &ChargeNetwork, capacitance_f: &DMatrix<f64>) -> Option<Self> {
        let count = network.nodes.len();
        let (free, untied) = (vec![false; count], (0..count).collect::<Vec<_>>());
        let adrift = network.islands(Way::Either, &free, &untied);
        let mut floating = vec![None; count];
        for (island, nodes) in adrift.iter().enumerate() {
            for &node in nodes {
                floating[node] = Some(island);
            }
        }
        // An island's potential against the case is nobody's: its first node is the zero of the others.
        let kept: Vec<usize> = (0..count).filter(|node| adrift.iter().all(|island| island[0] != *node)).collect();
        let lasting = network.islands(Way::Conductance, &free, &untied).len() - adrift.len();
        if kept.is_empty() {
            let nothing = DMatrix::zeros(count, 0);
            return Some(Self {
                shapes: nothing.clone(),
                amplitudes: nothing.transpose(),
                rates: Vec::new(),
                floating,
            });
        }
        let (farad, siemens) = network.scales();
        let inner =
            |matrix: &DMatrix<f64>, scale: f64| matrix.select_rows(kept.iter()).select_columns(kept.iter()) / scale;
        let (c, g) = (inner(capacitance_f, farad), inner(&network.conductance_s(), siemens));
        let sum = &c + &g;
        let lower = sum.clone().cholesky()?.l();
        let half = lower.solve_lower_triangular(&c)?;
        let turned = lower.solve_lower_triangular(&half.transpose())?;
        let eigen = SymmetricEigen::new((&turned + turned.transpose()) * 0.5);
        let inner_shapes = lower.tr_solve_lower_triangular(&eigen.eigenvectors)?;
        // Rates by the quotient of energies: 1 - m would cancel for slow modes.
        let rates: Vec<f64> = (0..kept.len())
            .map(|mode| {
                let shape = inner_shapes.column(mode);
                let (stored, lost) = (shape.dot(&(&c * shape)), shape.dot(&(&g * shape)));
                if stored > 0.0 { siemens / farad * lost.max(0.0) / stored } else { f64::INFINITY }
            })
            .collect();
        let mut by_rate: Vec<usize> = (0..kept.len()).collect();
        by_rate.sort_by(|&a, &b| rates[a].total_cmp(&rates[b]));
        let rates = by_rate.iter().enumerate().map(|(place, &mode)| if place < lasting { 0.0 } else { rates[mode] });
        let rates = rates.collect();
        let inner_shapes = inner_shapes.select_columns(by_rate.iter());
        let inner_amplitudes = inner_shapes.transpose() * sum;
        let mut shapes = DMatrix::zeros(count, kept.len());
        let mut amplitudes = DMatrix::zeros(kept.len(), count);
        for (place, &node) in kept.iter().enumerate() {
            shapes.set_row(node, &inner_shapes.row(place));
            amplitudes.set_column(node, &inner_amplitudes.column(place));
        }
        // Voltages are counted from the island's zero.
        for island in &adrift {
            for mode in 0..kept.len() {
                amplitudes[(mode, island[0])] =
                    -island.iter().skip(1).map(|&node| amplitudes[(mode, node)]).sum::<f64>();
            }
        }
        Some(Self { shapes, amplitudes, rates, floating })
    }

    /// What the voltages in columns leave for ever.
    pub(super) fn left(&self, voltages: &DMatrix<f64>) -> DMatrix<f64> {
        let mut amplitudes = &self.amplitudes * voltages;
        for (mode, rate) in self.rates.iter().enumerate() {
            if *rate > 0.0 {
                amplitudes.row_mut(mode).fill(0.0);
            }
        }
        &self.shapes * amplitudes
    }

    /// Amplitudes of the modes of voltages in columns.
    pub(super) fn amplitudes(&self, voltages: &DMatrix<f64>) -> DMatrix<f64> {
        &self.amplitudes * voltages
    }

    /// The voltage between two nodes (None is the case) as a sum of modes with these amplitudes.
    pub(super) fn between(&self, from: usize, to: Option<usize>, amplitudes: &DMatrix<f64>) -> Envelope {
        let columns = amplitudes.ncols();
        let terms = self
            .rates
            .iter()
            .enumerate()
            .filter(|(_, rate)| rate.is_finite())
            .map(|(mode, &rate)| {
                let shape = self.shapes[(from, mode)] - to.map_or(0.0, |to| self.shapes[(to, mode)]);
                (rate, (0..columns).map(|column| shape * amplitudes[(mode, column)]).collect())
            })
            .collect();
        Envelope { terms }
    }
}

/// The largest voltage over all instants at which poles may have opened, against time: each opening adds
/// `Re(e^(j phase) sum over modes of a e^(-rate t))` with a phase of its own, so the magnitudes add.
#[derive(Debug, Clone)]
pub(super) struct Envelope {
    // Rate of a mode, and for each opening the real and the imaginary part of its amplitude.
    terms: Vec<(f64, Vec<f64>)>,
}

impl Envelope {
    /// At a time in s.
    pub(super) fn at(&self, time_s: f64) -> f64 {
        let columns = self.terms.first().map_or(0, |term| term.1.len());
        let part = |column: usize| -> f64 {
            self.terms.iter().map(|(rate, amplitude)| amplitude[column] * (-rate * time_s).exp()).sum()
        };
        // From plain zero: an empty sum is minus zero.
        (0..columns / 2).fold(0.0, |sum, opening| sum + part(2 * opening).hypot(part(2 * opening + 1)))
    }

    /// For ever.
    pub(super) fn left(&self) -> f64 {
        Self { terms: self.terms.iter().filter(|term| term.0 == 0.0).cloned().collect() }.at(0.0)
    }

    // Bounds of the envelope and of its slope at all times from this one on.
    fn bounds(&self, time_s: f64) -> (f64, f64) {
        self.terms.iter().fold((0.0, 0.0), |(value, slope), (rate, amplitude)| {
            let size: f64 = amplitude.chunks_exact(2).map(|pair| pair[0].hypot(pair[1])).sum();
            let now = size * (-rate * time_s).exp();
            (value + now, slope + rate * now)
        })
    }

    /// The last time in s at which it is above a voltage; infinite where it stays above, `known_s` where that is no earlier.
    ///
    /// From a time after which the sum of magnitudes is below, it goes back by steps over which the slope can't make good
    /// what is missing, so no crossing is stepped over; an unfinished walk would end late, on the safe side.
    pub(super) fn last_above(&self, voltage_v: f64, known_s: f64) -> f64 {
        if self.left() > voltage_v {
            return f64::INFINITY;
        }
        if !known_s.is_finite() || self.bounds(known_s).0 <= voltage_v {
            return known_s;
        }
        let slowest = self.terms.iter().map(|term| term.0).filter(|rate| *rate > 0.0).fold(f64::INFINITY, f64::min);
        if !slowest.is_finite() {
            return known_s;
        }
        let mut time = known_s.max(slowest.recip());
        while self.bounds(time).0 > voltage_v {
            time *= 2.0;
            // What is left for ever equals the voltage to the last digit.
            if !time.is_finite() {
                return f64::INFINITY;
            }
        }
        for _ in 0..10_000 {
            let window = 0.125 * time;
            let missing = voltage_v - self.at(time);
            // From here back to the known time nothing can rise enough.
            if (time - known_s) * self.bounds(known_s).1 <= missing {
                return known_s;
            }
            let step = (missing / self.bounds(time - window).1).min(window);
            if time - step <= known_s {
                return known_s;
            }
            if step <= 1e-13 * time {
                return time;
            }
            time -= step;
        }
        time
    }
}
