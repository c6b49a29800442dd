//! Macros by which an element of `stillroom` says each of its parameters once.
//!
//! [`Element`] is derived on the struct; [`element_class`] makes the Python class. Both read the same fields.

use proc_macro::TokenStream;

mod class;
#[allow(dead_code)]
#[path = "../../src/domain.rs"]
mod domain;
mod element;
mod field;
#[allow(dead_code)]
#[path = "../../src/number_text.rs"]
mod number_text;
mod unit;

/// What follows from the fields of an element: accessors, `new` and `with_…`, checks, `Rebuild`, the serial form.
///
/// ```ignore
/// /// A round hole.
/// #[derive(Debug, Clone, PartialEq, Element)]
/// #[element(new(diameter_m, wall_thickness_m))]
/// pub struct CircularHole {
///     /// Diameter.
///     #[parameter(positive)]
///     diameter_m: f64,
///     /// Thickness of the wall.
///     #[parameter(non_negative, default = 0.0)]
///     wall_thickness_m: f64,
/// }
/// ```
///
/// Each field is one of
///
/// * `#[parameter(domain, …)]`: a number (`f64`, `usize` or an `Option` of one). The unit is read off the name
///   (`_m`, `_hz`, `_s_per_m`, …) unless `unit = "…"` says another. Domains: `finite`, `positive`, `non_negative`,
///   `fraction`, `at_least_one`, `positive_or_infinite`, `incidence_angle`, `count`, `count_or_none`, `within(a, b)`,
///   `whole(a, b)`, `at_least(a)`, `above(a)`, `from_to_below(a, b)`. Relations: `at_most = other_field`,
///   `less_than = other_field`, or in words with `also = "…"` where `settle` checks them;
/// * `#[part]`: an element within this one, its parameters listed below its name; with `#[part(inline)]` as if they
///   were this one's own;
/// * `#[kept]`: what belongs to the element and is no number; `#[kept(choice)]` for one of a few by name (an enumeration
///   with `choice!`; `choice = "name"` shows the name of the default): a `str` in Python;
/// * `#[worked_out(value)]`: what follows from the others; `value` finds them under their names, already checked, and
///   may use `?`.
///
/// `default = value` makes a field optional: it has a `with_…` (`setter = name` calls it otherwise, `setter = none`
/// leaves it out), may be missing in files, and is a keyword in Python. A value that is no plain number finds the other
/// fields under their names, as far as they are known by then, and may use `?`.
///
/// `#[part(flat)]` is inline in Python too: the arguments of the part are arguments of the whole. `walk = method` names
/// a `fn method(&self, knobs: &mut Knobs<'_>) -> Result<Part>` in place of the walk that follows from the type.
///
/// On an enumeration whose members hold one element each, the derive passes on to the one that is there.
///
/// `python = Name` names Python's type of a field where it is not `PyType`: one with `into_core(self) -> PyResult<…>` and
/// `from_core(&…)`. `copy` gives a value that can be copied from the accessor, `hidden` leaves the accessor out, `free` says that
/// nothing depends on the field, so that its setter cannot fail.
///
/// On the struct, `#[element(…)]` takes `new(a, b)` (the arguments of `new`; by default the fields without a default),
/// `new = none` (a `new` written by hand ends in `Self::checked(…)` with all fields but those worked out),
/// `settle` (a method `fn settle(self) -> Result<Self>` for checks that no attribute can say),
/// `told = function` (where the default of one field depends on whether another was told: `function` takes all fields,
/// those of `new` first, each as an `Option` whose default is no plain number),
/// `errors = "…"` (what it refuses, for the documentation), and `no_serde`.
#[proc_macro_derive(Element, attributes(element, parameter, part, kept, worked_out))]
pub fn element(input: TokenStream) -> TokenStream {
    let input = syn::parse_macro_input!(input as syn::DeriveInput);
    element::expand(&input).unwrap_or_else(|error| error.into_compile_error()).into()
}

/// The Python class of an element: docstring, constructor, getters, text form, copies and pickling.
///
/// Called through the macro that [`Element`] leaves under the element's own name.
#[proc_macro]
pub fn element_class(input: TokenStream) -> TokenStream {
    let class = syn::parse_macro_input!(input as class::Class);
    class.expand().into()
}
