//! One of a few, by name.

/// Gives an enumeration its names: `name`, `NAMES`, `Display` and `FromStr`, from one list. Upper and lower case are the
/// same; an unknown name is told with all that exist.
macro_rules! choice {
    ($type:ident, $kind:literal { $($member:ident => $name:literal),+ $(,)? }) => {
        impl $type {
            /// All names, in the order of the members.
            pub const NAMES: &'static [&'static str] = &[$($name),+];

            /// Its name.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self {
                    $(Self::$member => $name,)+
                }
            }
        }

        impl std::fmt::Display for $type {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.name())
            }
        }

        impl std::str::FromStr for $type {
            type Err = $crate::error::Error;

            fn from_str(name: &str) -> $crate::error::Result<Self> {
                $(
                    if name.eq_ignore_ascii_case($name) {
                        return Ok(Self::$member);
                    }
                )+
                Err($crate::error::Error::UnknownName {
                    kind: $kind.into(),
                    name: name.to_owned(),
                    known: Self::NAMES.iter().map(|&known| known.to_owned()).collect(),
                })
            }
        }
    };
}
pub(crate) use choice;
