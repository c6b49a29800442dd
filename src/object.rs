//! Objects behind pointers: which type they are, and whether two are equal.

use std::any::Any;

/// Access to the type behind a pointer, and comparison across pointers.
pub trait AnyObject {
    /// For downcasting.
    fn as_any(&self) -> &dyn Any;
    /// Equality with another object: same type and equal.
    fn equals(&self, other: &dyn Any) -> bool;
}

impl<T: PartialEq + 'static> AnyObject for T {
    fn as_any(&self) -> &dyn Any {
        self
    }
    fn equals(&self, other: &dyn Any) -> bool {
        other.downcast_ref::<T>().is_some_and(|other| self == other)
    }
}
