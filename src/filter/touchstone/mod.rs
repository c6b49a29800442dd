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

mod network;
mod option;
mod read;
mod write;

use num_complex::Complex64;

use self::read::Reader;
use crate::error::{Error, Result, check};

pub use self::option::{FrequencyUnit, NetworkParameter, PairFormat};

/// More ports than this would need rules for line breaks that version 1 leaves to custom.
pub const MOST_PORTS: usize = 4;

/// One row of a two-port's noise data.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
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
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "Record", into = "Record"))]
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
                    unit: "".into(),
                    accepted: "finite".into(),
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
                kind: "Touchstone file ending".into(),
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
                    unit: "".into(),
                    accepted: "other than zero in dB format".into(),
                });
            }
            pairs.push(format.pair(value));
        }
        Ok(Self { format, pairs, ..self })
    }
}

/// In a design file: the text, which comes back to the last bit.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Record {
    ports: usize,
    text: String,
}

#[cfg(feature = "serde")]
impl TryFrom<Record> for Touchstone {
    type Error = Error;
    fn try_from(record: Record) -> Result<Self> {
        Self::parse(&record.text, record.ports)
    }
}

#[cfg(feature = "serde")]
impl From<Touchstone> for Record {
    fn from(file: Touchstone) -> Self {
        Self { ports: file.ports, text: file.to_text() }
    }
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
