//! Reading Touchstone files, each fault told with its line.

use super::{FrequencyUnit, NetworkParameter, NoisePoint, PairFormat, Touchstone};
use crate::error::{Error, Result};

const WHAT: &str = "Touchstone file";

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

pub(super) struct Reader {
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
    pub(super) const fn new(ports: usize) -> Self {
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

    pub(super) fn read(mut self, text: &str) -> Result<Touchstone> {
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
    Error::Parse { what: WHAT.into(), line, column: None, found, expected: expected.to_owned() }
}
