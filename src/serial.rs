//! Numbers that survive every file format: JSON has no word for infinity, and a perfect conductor needs one.

/// For `#[serde(with)]`: finite numbers as they are, others as the words `inf`, `-inf` and `nan`.
pub(crate) mod number {
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

    #[derive(Deserialize)]
    #[serde(untagged)]
    enum Written {
        Number(f64),
        Word(String),
    }

    pub(crate) fn serialize<S: Serializer>(value: &f64, to: S) -> Result<S::Ok, S::Error> {
        match *value {
            finite if finite.is_finite() => finite.serialize(to),
            value if value.is_nan() => "nan".serialize(to),
            value => (if value > 0.0 { "inf" } else { "-inf" }).serialize(to),
        }
    }

    /// One that may be missing, and is not.
    pub(crate) fn given<'de, D: Deserializer<'de>>(from: D) -> Result<Option<f64>, D::Error> {
        deserialize(from).map(Some)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
        match Written::deserialize(from)? {
            Written::Number(value) => Ok(value),
            Written::Word(word) => match word.as_str() {
                "inf" => Ok(f64::INFINITY),
                "-inf" => Ok(f64::NEG_INFINITY),
                "nan" => Ok(f64::NAN),
                _ => Err(D::Error::custom(format!("found {word:?}, expected a number, \"inf\", \"-inf\" or \"nan\""))),
            },
        }
    }
}

/// The same of many numbers.
pub(crate) mod numbers {
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    #[derive(Serialize, Deserialize)]
    #[serde(transparent)]
    struct Number(#[serde(with = "super::number")] f64);

    pub(crate) fn serialize<S: Serializer>(values: &[f64], to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(values.iter().copied().map(Number))
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<f64>, D::Error> {
        Ok(Vec::<Number>::deserialize(from)?.into_iter().map(|Number(value)| value).collect())
    }
}
