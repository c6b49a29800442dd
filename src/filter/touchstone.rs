//! Touchstone files, version 1.1: network parameters of one to four ports as text.
//!
//! Source of the format: *Touchstone File Format Specification*, IBIS Open Forum (version 1.1, 2002; restated
//! in version 2.0, 2009, sections on comment, option and data lines). What is kept to:
//!
//! * `!` starts a comment; the option line is `# unit parameter format R ohm`, in any order and case,
//!   `GHz S MA R 50` where it is silent; later option lines are ignored, as the specification says;
//! * one frequency with its pairs is a record; it starts on a new line; two-ports are written
//!   S11 S21 S12 S22, all others row by row;
//! * frequencies increase; noise data (five numbers) may follow a two-port, starting at or below the last
//!   frequency;
//! * Z, Y, H and G data are normalised to the reference resistance;
//! * a reference for each port on the option line is accepted (`R 50 75`), as in current revisions.
//!
//! **Round trip.** Numbers stay as the pairs that the file holds, and frequencies are scaled by moving the
//! decimal point in the text, not by multiplying: what is written and read again is equal to the last bit, in
//! every format and unit.
//!
//! ```
//! use stillroom::filter::Touchstone;
//! let text = "! attenuator\n# MHz S DB R 50\n10 -40 0 -6.02 0 -6.02 0 -40 0\n";
//! let file = Touchstone::parse(text, 2)?;
//! assert_eq!(file.frequency_hz(), [10e6]);
//! assert!((file.value(0, 1, 0).re - 0.5).abs() < 1e-4);
//! assert_eq!(Touchstone::parse(&file.to_text(), 2)?, file);
//! let error = Touchstone::parse("# MHz S RI R 50\n10 0.1\n", 1).unwrap_err();
//! assert!(error.to_string().contains("line 2"));
//! # Ok::<(), stillroom::Error>(())
//! ```

use std::fmt::Write as _;

use num_complex::Complex64;

use super::square::Square;
use crate::decibel::DB_PER_NEPER;
use crate::error::{Error, Result, check};

const WHAT: &str = "Touchstone file";
/// More ports than this would need rules for line breaks that version 1 leaves to custom.
pub const MOST_PORTS: usize = 4;

/// Unit of the frequency column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum FrequencyUnit {
    /// Hertz.
    Hz,
    /// Kilohertz.
    KHz,
    /// Megahertz.
    MHz,
    /// Gigahertz.
    GHz,
}

impl FrequencyUnit {
    /// As it is written on the option line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hz => "Hz",
            Self::KHz => "kHz",
            Self::MHz => "MHz",
            Self::GHz => "GHz",
        }
    }

    const fn exponent(self) -> i32 {
        match self {
            Self::Hz => 0,
            Self::KHz => 3,
            Self::MHz => 6,
            Self::GHz => 9,
        }
    }

    /// All of them.
    pub const ALL: [Self; 4] = [Self::Hz, Self::KHz, Self::MHz, Self::GHz];
}

/// Which network parameters the file holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum NetworkParameter {
    /// Scattering.
    S,
    /// Admittance, normalised.
    Y,
    /// Impedance, normalised.
    Z,
    /// Hybrid, normalised; two-ports only.
    H,
    /// Inverse hybrid, normalised; two-ports only.
    G,
}

impl NetworkParameter {
    /// As it is written on the option line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::S => "S",
            Self::Y => "Y",
            Self::Z => "Z",
            Self::H => "H",
            Self::G => "G",
        }
    }

    /// All of them.
    pub const ALL: [Self; 5] = [Self::S, Self::Y, Self::Z, Self::H, Self::G];
}

/// How a complex number is written as a pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum PairFormat {
    /// Real and imaginary part.
    RealImaginary,
    /// Magnitude and angle in degrees.
    MagnitudeAngle,
    /// Magnitude in dB and angle in degrees.
    DecibelAngle,
}

impl PairFormat {
    /// As it is written on the option line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::RealImaginary => "RI",
            Self::MagnitudeAngle => "MA",
            Self::DecibelAngle => "DB",
        }
    }

    /// All of them.
    pub const ALL: [Self; 3] = [Self::RealImaginary, Self::MagnitudeAngle, Self::DecibelAngle];

    fn value(self, [first, second]: [f64; 2]) -> Complex64 {
        match self {
            Self::RealImaginary => Complex64::new(first, second),
            Self::MagnitudeAngle => Complex64::from_polar(first, second.to_radians()),
            Self::DecibelAngle => Complex64::from_polar((first / DB_PER_NEPER).exp(), second.to_radians()),
        }
    }

    fn pair(self, value: Complex64) -> [f64; 2] {
        match self {
            Self::RealImaginary => [value.re, value.im],
            Self::MagnitudeAngle => [value.norm(), value.arg().to_degrees()],
            Self::DecibelAngle => [DB_PER_NEPER * value.norm().ln(), value.arg().to_degrees()],
        }
    }
}

/// One row of a two-port's noise data.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NoisePoint {
    /// Frequency, Hz.
    pub frequency_hz: f64,
    /// Least noise figure, dB.
    pub noise_figure_db: f64,
    /// Source reflection that gives it: magnitude and angle in degrees.
    pub reflection: [f64; 2],
    /// Noise resistance over the reference resistance.
    pub normalised_resistance: f64,
}

/// A file's content.
#[derive(Debug, Clone, PartialEq)]
pub struct Touchstone {
    ports: usize,
    unit: FrequencyUnit,
    parameter: NetworkParameter,
    format: PairFormat,
    reference_ohm: Vec<f64>,
    frequency_hz: Vec<f64>,
    // Row by row for each frequency, whatever the order in the file.
    pairs: Vec<[f64; 2]>,
    comments: Vec<String>,
    noise: Vec<NoisePoint>,
}

impl Touchstone {
    /// From scattering parameters, row by row for each frequency, referred to one resistance at all ports.
    ///
    /// # Errors
    /// For a port count outside 1 to 4, frequencies that are not positive and increasing, values that are
    /// not finite, lengths that do not fit, or a reference that is not positive.
    pub fn from_scattering(
        ports: usize,
        frequency_hz: Vec<f64>,
        scattering: &[Complex64],
        reference_ohm: f64,
    ) -> Result<Self> {
        check::within("ports", "", ports as f64, (1.0, MOST_PORTS as f64), "a whole number from 1 to 4")?;
        check::not_empty("frequency_hz", &frequency_hz)?;
        check::all("frequency_hz", "Hz", &frequency_hz, "zero or positive, and finite", |f| f >= 0.0 && f.is_finite())?;
        check::increasing("frequency_hz", "Hz", &frequency_hz)?;
        check::same_length(
            "scattering",
            scattering.len(),
            "frequency_hz times ports squared",
            frequency_hz.len() * ports * ports,
        )?;
        for (index, value) in scattering.iter().enumerate() {
            if !value.is_finite() {
                let value = if value.re.is_finite() { value.im } else { value.re };
                return Err(Error::AtIndex {
                    quantity: "scattering".into(),
                    index,
                    value,
                    unit: "",
                    accepted: "finite",
                });
            }
        }
        check::positive("reference_ohm", "ohm", reference_ohm)?;
        Ok(Self {
            ports,
            unit: FrequencyUnit::Hz,
            parameter: NetworkParameter::S,
            format: PairFormat::RealImaginary,
            reference_ohm: vec![reference_ohm],
            frequency_hz,
            pairs: scattering.iter().map(|value| [value.re, value.im]).collect(),
            comments: Vec::new(),
            noise: Vec::new(),
        })
    }

    /// Reads a file's text; the number of ports is what its name says (`.s2p`: two).
    ///
    /// # Errors
    /// [`Error::Parse`] with the line number and what was expected there; [`Error::OutOfRange`] for a port
    /// count outside 1 to 4.
    pub fn parse(text: &str, ports: usize) -> Result<Self> {
        check::within("ports", "", ports as f64, (1.0, MOST_PORTS as f64), "a whole number from 1 to 4")?;
        Reader::new(ports).read(text)
    }

    /// The number of ports that a file name such as `filter.s2p` states.
    ///
    /// # Errors
    /// [`Error::UnknownName`] if it has no such ending.
    pub fn ports_of_name(name: &str) -> Result<usize> {
        let ending = name.rsplit('.').next().unwrap_or_default().to_ascii_lowercase();
        match ending.as_bytes() {
            [b's', digit @ b'1'..=b'4', b'p'] => Ok(usize::from(digit - b'0')),
            _ => Err(Error::UnknownName {
                kind: "Touchstone file ending",
                name: name.to_owned(),
                known: (1..=MOST_PORTS).map(|n| format!(".s{n}p")).collect(),
            }),
        }
    }

    /// Number of ports.
    #[must_use]
    pub const fn ports(&self) -> usize {
        self.ports
    }

    /// Unit that the frequencies are written in.
    #[must_use]
    pub const fn unit(&self) -> FrequencyUnit {
        self.unit
    }

    /// Which parameters it holds.
    #[must_use]
    pub const fn parameter(&self) -> NetworkParameter {
        self.parameter
    }

    /// How the pairs are written.
    #[must_use]
    pub const fn format(&self) -> PairFormat {
        self.format
    }

    /// Reference resistance of each port, ohm.
    #[must_use]
    pub fn reference_ohm(&self) -> Vec<f64> {
        (0..self.ports).map(|port| self.reference(port)).collect()
    }

    fn reference(&self, port: usize) -> f64 {
        self.reference_ohm.get(port).or(self.reference_ohm.first()).copied().unwrap_or(50.0)
    }

    /// Frequencies, Hz.
    #[must_use]
    pub fn frequency_hz(&self) -> &[f64] {
        &self.frequency_hz
    }

    /// Comment lines above the data, without the mark.
    #[must_use]
    pub fn comments(&self) -> &[String] {
        &self.comments
    }

    /// Noise data of a two-port, if any.
    #[must_use]
    pub fn noise(&self) -> &[NoisePoint] {
        &self.noise
    }

    /// The pair as it stands in the file: at one frequency, into port `row` from port `column`, from zero.
    ///
    /// Zeros outside the matrix or the table.
    #[must_use]
    pub fn pair(&self, index: usize, row: usize, column: usize) -> [f64; 2] {
        let inside = row < self.ports && column < self.ports;
        let place = (index * self.ports + row) * self.ports + column;
        self.pairs.get(place).filter(|_| inside).copied().unwrap_or([0.0, 0.0])
    }

    /// The same as a complex number.
    #[must_use]
    pub fn value(&self, index: usize, row: usize, column: usize) -> Complex64 {
        self.format.value(self.pair(index, row, column))
    }

    /// The same content with other comments above it.
    #[must_use]
    pub fn with_comments(self, comments: Vec<String>) -> Self {
        // A line break inside a comment would turn its rest into data.
        let comments = comments.iter().flat_map(|comment| comment.split(['\n', '\r'])).map(str::to_owned).collect();
        Self { comments, ..self }
    }

    /// The same content written in another unit of frequency: no number changes.
    #[must_use]
    pub fn in_unit(self, unit: FrequencyUnit) -> Self {
        Self { unit, ..self }
    }

    /// The same content as pairs of another format; numbers are converted once, to rounding.
    ///
    /// # Errors
    /// [`Error::AtIndex`] where a zero would have to be written in dB.
    pub fn in_format(self, format: PairFormat) -> Result<Self> {
        if format == self.format {
            return Ok(self);
        }
        let mut pairs = Vec::with_capacity(self.pairs.len());
        for (index, &pair) in self.pairs.iter().enumerate() {
            let value = self.format.value(pair);
            if format == PairFormat::DecibelAngle && value.norm() == 0.0 {
                return Err(Error::AtIndex {
                    quantity: "network parameter".into(),
                    index,
                    value: 0.0,
                    unit: "",
                    accepted: "other than zero in dB format",
                });
            }
            pairs.push(format.pair(value));
        }
        Ok(Self { format, pairs, ..self })
    }

    fn matrix(&self, index: usize) -> Square {
        Square::from_fn(self.ports, |row, column| self.value(index, row, column))
    }

    // Whatever the file holds, as scattering parameters.
    fn scattering_matrix(&self, index: usize) -> Result<Square> {
        let (given, one) = (self.matrix(index), Square::identity(self.ports));
        let singular = || Error::AtIndex {
            quantity: format!("{} parameters", self.parameter.name()),
            index,
            value: self.frequency_hz.get(index).copied().unwrap_or(f64::NAN),
            unit: "Hz",
            accepted: "such that scattering parameters exist",
        };
        let hybrid = |above: f64, given: &Square| {
            // For G the roles of reflection and transmission signs are exchanged.
            let (p, q, r, s) = (given.get(0, 0), given.get(0, 1), given.get(1, 0), given.get(1, 1));
            let divisor = (p + 1.0) * (s + 1.0) - q * r;
            if divisor.norm() == 0.0 {
                return None;
            }
            let first = ((p - 1.0) * (s + 1.0) - q * r) * above / divisor;
            let last = ((p + 1.0) * (s - 1.0) - q * r) * -above / divisor;
            let (down, up) = (q * (2.0 * above) / divisor, r * (-2.0 * above) / divisor);
            let entries = [[first, down], [up, last]];
            Some(Square::from_fn(2, |row, column| entries[row][column]))
        };
        match self.parameter {
            NetworkParameter::S => Some(given),
            NetworkParameter::Z => given.plus(&one).inverse().map(|inverse| given.minus(&one).times(&inverse)),
            NetworkParameter::Y => given.plus(&one).inverse().map(|inverse| one.minus(&given).times(&inverse)),
            NetworkParameter::H => hybrid(1.0, &given),
            NetworkParameter::G => hybrid(-1.0, &given),
        }
        .ok_or_else(singular)
    }

    /// Scattering parameters at one frequency, row by row, whatever parameters the file holds.
    ///
    /// # Errors
    /// [`Error::AtIndex`] where they do not exist (an ideal connection without resistance, for example).
    pub fn scattering(&self, index: usize) -> Result<Vec<Complex64>> {
        let matrix = self.scattering_matrix(index)?;
        Ok((0..self.ports * self.ports).map(|k| matrix.get(k / self.ports, k % self.ports)).collect())
    }

    /// How far the data are from passive: at each frequency the largest singular value of S, less one. Zero or
    /// less is passive; 0.01 lets an amplitude out that is 1 % larger than what goes in.
    ///
    /// # Errors
    /// As [`scattering`](Self::scattering).
    pub fn excess_gains(&self) -> Result<Vec<f64>> {
        (0..self.frequency_hz.len())
            .map(|index| Ok(self.scattering_matrix(index)?.largest_singular_value() - 1.0))
            .collect()
    }

    /// Refuses data that give out more than they take in, beyond a tolerance for noise in amplitude.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] that names the frequency at which it is worst, and the largest singular value
    /// there.
    pub fn check_passive(&self, tolerance: f64) -> Result<()> {
        check::non_negative("tolerance", "", tolerance)?;
        let gains = self.excess_gains()?;
        match gains.iter().enumerate().max_by(|p, q| p.1.total_cmp(q.1)) {
            Some((index, &gain)) if gain > tolerance || gain.is_nan() => Err(Error::OutOfRange {
                quantity: format!("largest singular value of S at {} Hz", self.frequency_hz[index]),
                value: gain + 1.0,
                unit: "",
                accepted: "at most one (within the tolerance) in passive data",
            }),
            _ => Ok(()),
        }
    }

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

/// Reads a number with its decimal point moved to the right.
fn scaled(token: &str, places: i32) -> Option<f64> {
    // Rust reads "inf", "nan" and "infinity" as numbers; no file means them.
    if !token.bytes().all(|byte| byte.is_ascii_digit() || b"+-.eE".contains(&byte)) {
        return None;
    }
    let (mantissa, exponent) = match token.find(['e', 'E']) {
        None => (token, 0),
        Some(at) => (&token[..at], token[at + 1..].parse::<i32>().ok()?),
    };
    let value = format!("{mantissa}e{}", exponent.checked_add(places)?).parse::<f64>().ok()?;
    value.is_finite().then_some(value)
}

struct Reader {
    ports: usize,
    unit: FrequencyUnit,
    parameter: NetworkParameter,
    format: PairFormat,
    reference_ohm: Vec<f64>,
    option_seen: bool,
    frequency_hz: Vec<f64>,
    pairs: Vec<[f64; 2]>,
    comments: Vec<String>,
    noise: Vec<NoisePoint>,
    // The record being read: its numbers after the frequency, in the order of the file.
    record: Vec<f64>,
    record_line: usize,
}

impl Reader {
    const fn new(ports: usize) -> Self {
        Self {
            ports,
            unit: FrequencyUnit::GHz,
            parameter: NetworkParameter::S,
            format: PairFormat::MagnitudeAngle,
            reference_ohm: Vec::new(),
            option_seen: false,
            frequency_hz: Vec::new(),
            pairs: Vec::new(),
            comments: Vec::new(),
            noise: Vec::new(),
            record: Vec::new(),
            record_line: 0,
        }
    }

    fn read(mut self, text: &str) -> Result<Touchstone> {
        let mut last_line = 0;
        for (index, line) in text.lines().enumerate() {
            last_line = index + 1;
            self.line(line, last_line)?;
        }
        if !self.record.is_empty() {
            return Err(self.incomplete(last_line));
        }
        if self.frequency_hz.is_empty() {
            return Err(parse_error(last_line.max(1), "the end of the file", "at least one line of data"));
        }
        if self.reference_ohm.is_empty() {
            self.reference_ohm.push(50.0);
        }
        Ok(Touchstone {
            ports: self.ports,
            unit: self.unit,
            parameter: self.parameter,
            format: self.format,
            reference_ohm: self.reference_ohm,
            frequency_hz: self.frequency_hz,
            pairs: self.pairs,
            comments: self.comments,
            noise: self.noise,
        })
    }

    fn line(&mut self, line: &str, at: usize) -> Result<()> {
        let (content, comment) = match line.split_once('!') {
            Some((content, comment)) => (content.trim(), Some(comment)),
            None => (line.trim(), None),
        };
        if let Some(comment) = comment.filter(|_| content.is_empty() && !self.option_seen) {
            self.comments.push(comment.trim_end().to_owned());
        }
        if content.is_empty() {
            return Ok(());
        }
        if let Some(options) = content.strip_prefix('#') {
            if self.option_seen {
                return Ok(());
            }
            if !self.frequency_hz.is_empty() || !self.record.is_empty() {
                return Err(parse_error(at, content, "the option line before the data"));
            }
            self.option_seen = true;
            return self.options(options, at);
        }
        if content.starts_with('[') {
            return Err(parse_error(at, content, "data of version 1; keywords in brackets belong to version 2"));
        }
        self.data(content, at)
    }

    fn options(&mut self, options: &str, at: usize) -> Result<()> {
        let mut tokens = options.split_whitespace().peekable();
        while let Some(token) = tokens.next() {
            let same = |name: &str| name.eq_ignore_ascii_case(token);
            if let Some(&unit) = FrequencyUnit::ALL.iter().find(|unit| same(unit.name())) {
                self.unit = unit;
            } else if let Some(&parameter) = NetworkParameter::ALL.iter().find(|parameter| same(parameter.name())) {
                self.parameter = parameter;
            } else if let Some(&format) = PairFormat::ALL.iter().find(|format| same(format.name())) {
                self.format = format;
            } else if same("R") {
                while let Some(value) = tokens.peek().and_then(|token| scaled(token, 0)) {
                    if value <= 0.0 {
                        return Err(parse_error(at, &value.to_string(), "a positive reference resistance after R"));
                    }
                    self.reference_ohm.push(value);
                    tokens.next();
                }
                if !(self.reference_ohm.len() == 1 || self.reference_ohm.len() == self.ports) {
                    let expected = format!("one reference resistance after R, or {}, one for each port", self.ports);
                    return Err(parse_error(at, options.trim(), &expected));
                }
            } else {
                let expected = "a frequency unit (Hz, kHz, MHz, GHz), a parameter (S, Y, Z, H, G), \
                                a format (DB, MA, RI) or R with a resistance";
                return Err(parse_error(at, token, expected));
            }
        }
        if matches!(self.parameter, NetworkParameter::H | NetworkParameter::G) && self.ports != 2 {
            return Err(parse_error(at, options.trim(), "S, Y or Z: hybrid parameters are for two ports"));
        }
        Ok(())
    }

    fn data(&mut self, content: &str, at: usize) -> Result<()> {
        let needed = 2 * self.ports * self.ports;
        let starts = self.record.is_empty();
        let places = self.unit.exponent();
        let mut numbers = Vec::new();
        for (place, token) in content.split_whitespace().enumerate() {
            let shift = if starts && place == 0 { places } else { 0 };
            numbers.push(scaled(token, shift).ok_or_else(|| parse_error(at, token, "a finite number"))?);
        }
        if starts {
            let frequency = numbers[0];
            if frequency < 0.0 {
                return Err(parse_error(at, content, "a frequency of zero or more"));
            }
            let last = self.frequency_hz.last().copied();
            let noise_follows = self.ports == 2 && numbers.len() == 5 && last.is_some_and(|last| frequency <= last);
            if noise_follows || !self.noise.is_empty() {
                return self.noise_line(&numbers, content, at);
            }
            if let Some(last) = last.filter(|&last| frequency <= last) {
                let expected = format!("a frequency above the {last} Hz before it");
                return Err(parse_error(at, &format!("{frequency} Hz"), &expected));
            }
            self.record_line = at;
            self.frequency_hz.push(frequency);
            self.record.extend_from_slice(&numbers[1..]);
        } else {
            self.record.extend_from_slice(&numbers);
        }
        if self.record.len() < needed {
            // A record of nothing but its frequency must still count as begun; the next line completes it.
            if self.record.is_empty() {
                return Err(self.incomplete(at));
            }
            return Ok(());
        }
        if self.record.len() > needed {
            return Err(self.incomplete(at));
        }
        let n = self.ports;
        for row in 0..n {
            for column in 0..n {
                let place = if n == 2 { column * n + row } else { row * n + column };
                self.pairs.push([self.record[2 * place], self.record[2 * place + 1]]);
            }
        }
        self.record.clear();
        Ok(())
    }

    fn noise_line(&mut self, numbers: &[f64], content: &str, at: usize) -> Result<()> {
        let &[frequency_hz, noise_figure_db, magnitude, angle, normalised_resistance] = numbers else {
            return Err(parse_error(at, content, "the five numbers of a line of noise data"));
        };
        if self.noise.last().is_some_and(|before| frequency_hz <= before.frequency_hz) {
            return Err(parse_error(at, content, "noise data of increasing frequency"));
        }
        self.noise.push(NoisePoint {
            frequency_hz,
            noise_figure_db,
            reflection: [magnitude, angle],
            normalised_resistance,
        });
        Ok(())
    }

    fn incomplete(&self, at: usize) -> Error {
        let expected = format!(
            "{} numbers after the frequency (of line {}) for {} port{}, the last of them at the end of a line",
            2 * self.ports * self.ports,
            self.record_line,
            self.ports,
            if self.ports == 1 { "" } else { "s" }
        );
        parse_error(at, &format!("{} numbers", self.record.len()), &expected)
    }
}

fn parse_error(line: usize, found: &str, expected: &str) -> Error {
    // A line of binary rubbish should not flood the message.
    let found: String = found.chars().take(80).collect();
    Error::Parse { what: WHAT, line, found, expected: expected.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line_of(error: &Error) -> usize {
        match error {
            Error::Parse { line, .. } => *line,
            other => panic!("not a parse error: {other}"),
        }
    }

    #[test]
    fn two_ports_are_written_by_columns_and_others_by_rows() {
        let two = Touchstone::parse("# Hz S RI R 75\n1 11 0 21 0 12 0 22 0\n", 2).unwrap();
        assert_eq!(two.value(0, 1, 0).re, 21.0);
        assert_eq!(two.value(0, 0, 1).re, 12.0);
        assert_eq!(two.reference_ohm(), [75.0, 75.0]);
        let three = Touchstone::parse("#Hz S RI\n1 11 0 12 0 13 0\n21 0 22 0 23 0\n31 0 32 0 33 0\n", 3).unwrap();
        assert_eq!(three.value(0, 1, 0).re, 21.0);
        assert_eq!(three.value(0, 2, 1).re, 32.0);
    }

    #[test]
    fn a_silent_option_line_means_the_defaults() {
        let file = Touchstone::parse("#\n1 0.5 90\n", 1).unwrap();
        assert_eq!(file.frequency_hz(), [1e9]);
        assert_eq!(file.reference_ohm(), [50.0]);
        assert!((file.value(0, 0, 0) - Complex64::new(0.0, 0.5)).norm() < 1e-15);
    }

    #[test]
    fn every_fault_is_told_with_its_line() {
        let cases: [(&str, usize, usize); 12] = [
            ("! only a comment\n", 1, 1),
            ("", 1, 1),
            ("# MHz S RI R 50\n1 0 0\n1 0 0\n", 1, 3),
            ("# MHz S RI R 50\n2 0 0\n1 0 0\n", 1, 3),
            ("# MHz S RI R 50\n1 0 zero\n", 1, 2),
            ("# MHz S RI R 50\n1 0 nan\n", 1, 2),
            ("# MHz S RI R -50\n1 0 0\n", 1, 1),
            ("# MHz S RI R\n1 0 0\n", 1, 1),
            ("# miles S RI R 50\n1 0 0\n", 1, 1),
            ("[Version] 2.0\n# MHz S RI R 50\n", 1, 1),
            ("# MHz S RI R 50\n1 0 0 0 0 0 0 0 0\n", 1, 2),
            ("# MHz H RI R 50\n1 0 0\n", 1, 1),
        ];
        for (text, ports, line) in cases {
            let error = Touchstone::parse(text, ports).unwrap_err();
            assert_eq!(line_of(&error), line, "{text:?}: {error}");
        }
        assert!(Touchstone::parse("# MHz S RI R 50\n1 0 0\n", 0).is_err());
        assert!(Touchstone::parse("# MHz S RI R 50\n1 0 0\n", 5).is_err());
    }

    #[test]
    fn frequencies_are_scaled_without_rounding() {
        for unit in FrequencyUnit::ALL {
            for text in ["0.1", "2.3", "1e-3", "868.3", "0.000149", "1234567.891", "3E2"] {
                let file = Touchstone::parse(&format!("# {} S RI R 50\n{text} 1 0\n", unit.name()), 1).unwrap();
                let exact: f64 = format!("{text}e{}", unit.exponent()).parse().unwrap_or_else(|_| {
                    let (m, e) = text.split_once(['e', 'E']).unwrap();
                    format!("{m}e{}", e.parse::<i32>().unwrap() + unit.exponent()).parse().unwrap()
                });
                assert_eq!(file.frequency_hz()[0], exact);
                assert_eq!(Touchstone::parse(&file.to_text(), 1).unwrap(), file, "{}", file.to_text());
            }
        }
    }

    #[test]
    fn noise_data_are_kept() {
        let text = "# GHz S MA R 50\n1 .3 10 3 80 .05 70 .4 -30\n2 .3 10 3 80 .05 70 .4 -30\n0.5 1.2 .3 40 .2\n1 1.3 .3 50 .2\n";
        let file = Touchstone::parse(text, 2).unwrap();
        assert_eq!(file.noise().len(), 2);
        assert_eq!(file.noise()[0].frequency_hz, 0.5e9);
        assert_eq!(Touchstone::parse(&file.to_text(), 2).unwrap(), file);
        let error = Touchstone::parse(&format!("{text}3 1 1 1\n"), 2).unwrap_err();
        assert_eq!(line_of(&error), 6);
    }

    #[test]
    fn all_parameters_describe_the_same_network() {
        // A series 25 ohm, then a shunt 100 ohm, in a 50 ohm system, by hand: z11 = 2.5, z12 = z21 = z22 = 2;
        // y = z^-1; h11 = dz/z22, h12 = z12/z22, h21 = -z21/z22, h22 = 1/z22; g11 = 1/z11, g12 = -z12/z11,
        // g21 = z21/z11, g22 = dz/z11; dz = 1.
        let texts = [
            "# Hz Z RI R 50\n1 2.5 0 2 0 2 0 2 0\n",
            "# Hz Y RI R 50\n1 2 0 -2 0 -2 0 2.5 0\n",
            "# Hz H RI R 50\n1 0.5 0 -1 0 1 0 0.5 0\n",
            "# Hz G RI R 50\n1 0.4 0 0.8 0 -0.8 0 0.4 0\n",
        ];
        // S21 = 2 z21/((z11 + 1)(z22 + 1) - z12 z21) = 4/6.5, S11 = ((z11 - 1)(z22 + 1) - z12 z21)/6.5.
        let exact = [0.5 / 6.5, 4.0 / 6.5, 4.0 / 6.5, -0.5 / 6.5];
        for text in texts {
            let s = Touchstone::parse(text, 2).unwrap().scattering(0).unwrap();
            for (value, exact) in s.iter().zip(exact) {
                assert!((value - exact).norm() < 1e-14, "{text} {s:?}");
            }
        }
        let open = Touchstone::parse("# Hz Z RI R 50\n1 -1 0\n", 1).unwrap();
        assert!(open.scattering(0).is_err());
    }

    #[test]
    fn gain_is_told_with_its_place() {
        let file = Touchstone::parse("# MHz S RI R 50\n1 0.5 0\n2 1.02 0\n3 0.9 0\n", 1).unwrap();
        assert!((file.excess_gains().unwrap()[1] - 0.02).abs() < 1e-12);
        assert!(file.check_passive(0.03).is_ok());
        let error = file.check_passive(0.0).unwrap_err().to_string();
        assert!(error.contains("2000000 Hz") && error.contains("1.02"), "{error}");
    }

    #[test]
    fn names_tell_the_ports() {
        assert_eq!(Touchstone::ports_of_name("a.b.S3P").unwrap(), 3);
        for name in ["a.s5p", "a.s2", "s2p2", "", "a.snp"] {
            assert!(Touchstone::ports_of_name(name).is_err(), "{name}");
        }
    }
}
