//! Numbers as people read them in messages, labels and tables; the fields of errors and results keep them whole.

use std::fmt;

/// A number as it was given: all its digits, with a power of ten only where plain digits would be hard to count.
pub(crate) struct Given(pub f64);

impl fmt::Display for Given {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let value = self.0;
        if value == 0.0 || !value.is_finite() || (1e-3..1e5).contains(&value.abs()) {
            write!(f, "{value}")
        } else {
            write!(f, "{value:e}")
        }
    }
}

/// A number that was computed: six digits, more would not be believed.
pub(crate) struct Computed(pub f64);

impl fmt::Display for Computed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let rounded = format!("{:.5e}", self.0).parse().unwrap_or(self.0);
        Given(rounded).fmt(f)
    }
}

/// A frequency (Hz) with the prefix that keeps its number short.
pub(crate) struct Frequency(pub f64);

impl fmt::Display for Frequency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (scale, unit) = match self.0.abs() {
            size if size < 1e3 => (1.0, "Hz"),
            size if size < 1e6 => (1e3, "kHz"),
            size if size < 1e9 => (1e6, "MHz"),
            size if size < 1e12 => (1e9, "GHz"),
            _ => (1e12, "THz"),
        };
        write!(f, "{} {unit}", Computed(self.0 / scale))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn given_numbers_keep_their_digits() {
        let cases = [
            (0.0, "0"),
            (0.2, "0.2"),
            (-2e-5, "-2e-5"),
            (6e-3, "0.006"),
            (200.0, "200"),
            (1.234_567_890_123, "1.234567890123"),
            (299_792_458.0, "2.99792458e8"),
            (1.0 + f64::EPSILON, "1.0000000000000002"),
            (f64::INFINITY, "inf"),
            (f64::NAN, "NaN"),
        ];
        for (value, text) in cases {
            assert_eq!(Given(value).to_string(), text);
        }
    }

    #[test]
    fn computed_numbers_and_frequencies_are_short() {
        assert_eq!(Computed(166.406_506_532_883_7).to_string(), "166.407");
        assert_eq!(Computed(0.1).to_string(), "0.1");
        assert_eq!(Computed(99_999.96).to_string(), "1e5");
        assert_eq!(Computed(f64::NEG_INFINITY).to_string(), "-inf");
        assert_eq!(Frequency(50.0).to_string(), "50 Hz");
        assert_eq!(Frequency(14e3).to_string(), "14 kHz");
        assert_eq!(Frequency(12_052_510_000.0).to_string(), "12.0525 GHz");
        assert_eq!(Frequency(1e12).to_string(), "1 THz");
    }
}
