//! Tables as text, or as the file that holds it.

use std::path::PathBuf;

use pyo3::prelude::*;

/// Text itself, or the path of a file; a `str` is text, a path is a `pathlib.Path`.
#[derive(FromPyObject)]
pub enum TableText {
    Text(String),
    File(PathBuf),
}

impl TableText {
    /// The text.
    ///
    /// # Errors
    /// `OSError` where a file cannot be read.
    pub fn read(self) -> PyResult<String> {
        match self {
            Self::Text(text) => Ok(text),
            Self::File(path) => {
                let bytes = std::fs::read(&path)
                    .map_err(|error| std::io::Error::new(error.kind(), format!("{error}: {}", path.display())))?;
                Ok(crate::frequency_table::decode(&bytes).into_owned())
            }
        }
    }
}
