//! Limits that a leak passes, as runs of frequency.

use std::fmt;

use crate::number_text::Frequency;
use crate::validity::Limit;

/// A limit passed at a run of neighbouring frequencies.
///
/// Its text tells the run too: "1 MHz to 30 MHz: seam: gap / wavelength = ...".
#[derive(Debug, Clone)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[non_exhaustive]
pub struct LimitRun {
    /// First frequency of the run, Hz.
    pub from_hz: f64,
    /// Last frequency of the run, Hz.
    pub to_hz: f64,
    /// The limit, with the value farthest beyond it.
    pub limit: Limit,
}

/// A value that is no number is equal to itself.
impl PartialEq for LimitRun {
    fn eq(&self, other: &Self) -> bool {
        let (this, that) = (&self.limit, &other.limit);
        (self.from_hz, self.to_hz) == (other.from_hz, other.to_hz)
            && this.is_same(that)
            && (this.low, this.high) == (that.low, that.high)
            && (this.value == that.value || (this.value.is_nan() && that.value.is_nan()))
    }
}

impl fmt::Display for LimitRun {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", Frequency(self.from_hz))?;
        if self.to_hz != self.from_hz {
            write!(f, " to {}", Frequency(self.to_hz))?;
        }
        write!(f, ": {}", self.limit)
    }
}

/// The runs of one leak while they are being collected.
#[derive(Debug, Default)]
pub(super) struct Runs {
    runs: Vec<LimitRun>,
    /// Those that reach to the last frequency.
    open: Vec<usize>,
}

impl Runs {
    /// Goes on by one frequency (Hz) with the limits passed there.
    pub(super) fn add(&mut self, frequency_hz: f64, limits: &[Limit]) {
        let mut open = Vec::with_capacity(limits.len());
        for limit in limits {
            let going_on = self.open.iter().chain(&open).copied().find(|&run| self.runs[run].limit.is_same(limit));
            let place = going_on.unwrap_or(self.runs.len());
            match self.runs.get_mut(place) {
                Some(run) => {
                    run.to_hz = frequency_hz;
                    if limit.beyond() > run.limit.beyond() {
                        run.limit.clone_from(limit);
                    }
                }
                None => self.runs.push(LimitRun { from_hz: frequency_hz, to_hz: frequency_hz, limit: limit.clone() }),
            }
            if !open.contains(&place) {
                open.push(place);
            }
        }
        self.open = open;
    }

    pub(super) fn into_runs(self) -> Vec<LimitRun> {
        self.runs
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::validity::Validity;

    #[test]
    fn neighbouring_frequencies_make_a_run_with_the_worst_value() {
        let ratio = |value: f64| Validity::within("slot", "width / length", "", value, (0.0, 0.1), "it is off");
        let other = || Validity::given("slot", "open", false, "it is closed");
        let mut runs = Runs::default();
        let told = [ratio(0.2), ratio(0.5).and(other()), ratio(0.3), Validity::Holds, ratio(0.4)];
        for (validity, f) in told.iter().zip([1e6, 2e6, 30e6, 1e8, 2e8]) {
            runs.add(f, validity.limits());
        }
        let words: Vec<String> = runs.into_runs().iter().map(ToString::to_string).collect();
        assert_eq!(
            words,
            [
                "1 MHz to 30 MHz: slot: width / length = 0.5, holds up to 0.1; beyond, it is off",
                "2 MHz: slot: not open; it is closed",
                "200 MHz: slot: width / length = 0.4, holds up to 0.1; beyond, it is off",
            ]
        );
    }

    #[test]
    fn one_limit_passed_twice_at_a_frequency_is_told_once() {
        let ratio = |value: f64| Validity::within("slot", "width / length", "", value, (0.0, 0.1), "it is off");
        let mut runs = Runs::default();
        runs.add(1e6, ratio(0.2).and(ratio(f64::NAN)).limits());
        let runs = runs.into_runs();
        assert!(runs.len() == 1 && runs[0].limit.value.is_nan());
    }
}
