//! Writing Touchstone files, so that they read back as the same numbers.

use std::fmt::Write as _;

use super::Touchstone;

impl Touchstone {
    /// The file's text.
    #[must_use]
    pub fn to_text(&self) -> String {
        let mut text = String::new();
        for comment in &self.comments {
            text.push('!');
            text.push_str(comment);
            text.push('\n');
        }
        // Writing to a String does not fail.
        let _ = write!(text, "# {} {} {} R", self.unit.name(), self.parameter.name(), self.format.name());
        for reference in &self.reference_ohm {
            let _ = write!(text, " {}", number(*reference));
        }
        text.push('\n');
        let n = self.ports;
        for (index, &frequency) in self.frequency_hz.iter().enumerate() {
            text.push_str(&shifted(frequency, -self.unit.exponent()));
            for row in 0..n {
                if row > 0 && n > 2 {
                    text.push('\n');
                }
                for column in 0..n {
                    let [first, second] =
                        if n == 2 { self.pair(index, column, row) } else { self.pair(index, row, column) };
                    let _ = write!(text, " {} {}", number(first), number(second));
                }
            }
            text.push('\n');
        }
        for point in &self.noise {
            let _ = writeln!(
                text,
                "{} {} {} {} {}",
                shifted(point.frequency_hz, -self.unit.exponent()),
                number(point.noise_figure_db),
                number(point.reflection[0]),
                number(point.reflection[1]),
                number(point.normalised_resistance)
            );
        }
        text
    }
}

/// Shortest text that reads back as the same number.
fn number(value: f64) -> String {
    let size = value.abs();
    if size == 0.0 || (1e-5..1e15).contains(&size) { format!("{value}") } else { format!("{value:e}") }
}

/// The same with the decimal point moved, so that scaling is exact.
fn shifted(value: f64, places: i32) -> String {
    if places == 0 || value == 0.0 {
        return number(value);
    }
    let text = format!("{value:e}");
    let Some((mantissa, exponent)) = text.split_once('e') else { return text };
    let exponent = exponent.parse::<i32>().unwrap_or(0) + places;
    let (sign, digits) = match mantissa.strip_prefix('-') {
        Some(rest) => ("-", rest.replace('.', "")),
        None => ("", mantissa.replace('.', "")),
    };
    match exponent {
        0..=14 => {
            let whole = exponent as usize + 1;
            if digits.len() <= whole {
                format!("{sign}{digits:0<whole$}")
            } else {
                format!("{sign}{}.{}", &digits[..whole], &digits[whole..])
            }
        }
        -5..=-1 => format!("{sign}0.{}{digits}", "0".repeat((-exponent - 1) as usize)),
        _ => format!("{mantissa}e{exponent}"),
    }
}
