//! Reading and writing values so that a file cannot smuggle in what a constructor would refuse.

/// The serialised form of a type: its fields, unknown ones refused. On the way in, the bare fields pass the
/// type's own [`Rebuild`](crate::parameter::Rebuild), and with it every check of its constructor.
macro_rules! checked_record {
    ($type:ident as $record:ident { $( $(#[$attribute:meta])* $field:ident : $kind:ty ),* $(,)? }) => {
        #[cfg(feature = "serde")]
        #[derive(serde::Serialize, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        struct $record {
            $( $(#[$attribute])* $field: $kind, )*
        }

        #[cfg(feature = "serde")]
        impl TryFrom<$record> for $type {
            type Error = $crate::Error;
            fn try_from(record: $record) -> $crate::Result<Self> {
                let $record { $($field),* } = record;
                let unchecked = $type { $($field),* };
                $crate::parameter::change(&[], |knobs| $crate::parameter::Rebuild::rebuild(&unchecked, knobs))
            }
        }

        #[cfg(feature = "serde")]
        impl From<$type> for $record {
            fn from(value: $type) -> Self {
                let $type { $($field),* } = value;
                Self { $($field),* }
            }
        }
    };
}
pub(crate) use checked_record;
