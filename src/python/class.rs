//! What every value class has in common: getters, a repr that rebuilds it, copies and pickling, all
//! from one list of its constructor's arguments.

use pyo3::PyClass;
#[cfg(feature = "stubs")]
use pyo3::inspect::PyStaticExpr;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString};
#[cfg(feature = "stubs")]
use pyo3::{type_hint_identifier, type_hint_subscript};

use crate::parameter::Parameter;

/// `Name(key=value, ...)`.
pub fn repr(name: &str, state: &Bound<'_, PyDict>) -> PyResult<String> {
    let mut parts = Vec::with_capacity(state.len());
    for (key, value) in state.iter() {
        // An array as nested lists, which need no name from numpy to be read back.
        let plain = match value.getattr_opt("tolist")? {
            Some(to_list) => to_list.call0()?,
            None => value,
        };
        parts.push(format!("{}={}", key.cast::<PyString>()?.to_str()?, plain.repr()?.to_str()?));
    }
    Ok(format!("{name}({})", parts.join(", ")))
}

/// A new object of the same class, from the constructor's arguments with changes.
pub fn replaced<'py, T: PyClass>(
    object: &Bound<'py, T>,
    state: Bound<'py, PyDict>,
    changes: Option<&Bound<'py, PyDict>>,
) -> PyResult<Bound<'py, T>> {
    if let Some(changes) = changes {
        state.update(changes.as_mapping())?;
    }
    Ok(object.as_any().get_type().call((), Some(&state))?.cast_into::<T>()?)
}

/// The same as a small table for notebooks.
pub fn repr_html(name: &str, state: &Bound<'_, PyDict>) -> PyResult<String> {
    let mut rows = String::new();
    for (key, value) in state.iter() {
        let key = escape(key.cast::<PyString>()?.to_str()?);
        let value = escape(value.repr()?.to_str()?);
        rows.push_str(&format!(
            "<tr><th style=\"text-align:left\">{key}</th><td style=\"text-align:left\">{value}</td></tr>"
        ));
    }
    Ok(format!("<table><caption style=\"text-align:left\"><b>{}</b></caption>{rows}</table>", escape(name)))
}

/// Text as it may stand in HTML.
pub fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

/// Adds getters, `__repr__`, `_repr_html_`, `__copy__`, `__deepcopy__` and pickling to a class, from
/// the arguments of its constructor: names as in the constructor, each with how to read it.
macro_rules! value_class {
    ($class:ident, $name:literal { $( $(#[$doc:meta])* $field:ident : $type:ty = |$this:ident| $get:expr ),* $(,)? }) => {
        #[pyo3::pymethods]
        impl $class {
            $(
                $(#[$doc])*
                #[getter]
                fn $field(&self) -> $type { let $this = &self.0; $get }
            )*
            fn __repr__(&self, py: pyo3::Python<'_>) -> pyo3::PyResult<String> {
                $crate::python::class::repr($name, &self.state(py)?)
            }
            fn _repr_html_(&self, py: pyo3::Python<'_>) -> pyo3::PyResult<String> {
                $crate::python::class::repr_html($name, &self.state(py)?)
            }
            fn __copy__(slf: pyo3::PyRef<'_, Self>) -> pyo3::PyRef<'_, Self> { slf }
            fn __deepcopy__<'py>(
                slf: pyo3::PyRef<'py, Self>,
                #[allow(unused)] memo: &pyo3::Bound<'py, pyo3::PyAny>,
            ) -> pyo3::PyRef<'py, Self> { slf }
            /// The same with other arguments: any of the constructor's, by name, numbers or not.
            ///
            /// Parameters
            /// ----------
            /// **changes
            ///     New values of arguments of the constructor.
            #[pyo3(signature = (**changes: "object"))]
            fn replace<'py>(
                slf: &pyo3::Bound<'py, Self>,
                changes: Option<&pyo3::Bound<'py, pyo3::types::PyDict>>,
            ) -> pyo3::PyResult<pyo3::Bound<'py, Self>> {
                $crate::python::class::replaced(slf, slf.get().state(slf.py())?, changes)
            }
            #[pyo3(signature = () -> "tuple[tuple[()], dict[str, object]]")]
            fn __getnewargs_ex__<'py>(
                &self,
                py: pyo3::Python<'py>,
            ) -> pyo3::PyResult<(pyo3::Bound<'py, pyo3::types::PyTuple>, pyo3::Bound<'py, pyo3::types::PyDict>)> {
                Ok((pyo3::types::PyTuple::empty(py), self.state(py)?))
            }
        }
        impl $class {
            fn state<'py>(&self, py: pyo3::Python<'py>) -> pyo3::PyResult<pyo3::Bound<'py, pyo3::types::PyDict>> {
                let state = pyo3::types::PyDict::new(py);
                $( state.set_item(stringify!($field), self.$field())?; )*
                Ok(state)
            }
        }
    };
}
pub(crate) use value_class;

/// What `parameters()` gives: a dictionary of floats that know their unit and domain.
pub struct ParameterDict<'py>(Bound<'py, PyDict>);

impl<'py> IntoPyObject<'py> for ParameterDict<'py> {
    type Target = PyDict;
    type Output = Bound<'py, PyDict>;
    type Error = std::convert::Infallible;
    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr = type_hint_subscript!(
        type_hint_identifier!("builtins", "dict"),
        type_hint_identifier!("builtins", "str"),
        type_hint_identifier!("stillroom._parameter", "Parameter")
    );

    fn into_pyobject(self, _: Python<'py>) -> Result<Self::Output, Self::Error> {
        Ok(self.0)
    }
}

/// Numbers that know their unit and domain, by path, in the order of the walk.
pub fn parameter_dict<'py>(py: Python<'py>, parameters: &[Parameter]) -> PyResult<ParameterDict<'py>> {
    let class = py.import("stillroom._parameter")?.getattr("Parameter")?;
    let values = PyDict::new(py);
    for Parameter { path, unit, value, domain } in parameters {
        let bounds = (domain.low(), domain.high(), domain.is_low_included(), domain.is_high_included());
        values.set_item(path, class.call1((*value, *unit, bounds, domain.is_whole(), domain.to_string()))?)?;
    }
    Ok(ParameterDict(values))
}

/// Adds `parameters`, `parameter`, `with_parameter` and `with_parameters` to a class whose core type
/// is a `Rebuild`, and that is built from its core type by `wrap`.
macro_rules! parameter_methods {
    ($class:ident) => {
        #[pyo3::pymethods]
        impl $class {
            /// All numbers that define this object, by path.
            ///
            /// Returns
            /// -------
            /// dict[str, Parameter]
            ///     Path to value, in the order of the constructor; each value is a float that knows its unit and domain.
            fn parameters<'py>(
                &self,
                py: pyo3::Python<'py>,
            ) -> pyo3::PyResult<$crate::python::class::ParameterDict<'py>> {
                $crate::python::class::parameter_dict(py, &$crate::Parameters::parameters(&self.0)?)
            }

            /// The value of one parameter.
            ///
            /// Parameters
            /// ----------
            /// path : str
            ///     As listed by `parameters`.
            ///
            /// Raises
            /// ------
            /// UnknownParameterError
            ///     If there is no such path.
            fn parameter(&self, path: &str) -> pyo3::PyResult<f64> {
                Ok($crate::Parameters::parameter(&self.0, path)?)
            }

            /// The same object with one parameter changed.
            ///
            /// Parameters
            /// ----------
            /// path : str
            ///     As listed by `parameters`.
            /// value : float
            ///     In the unit that ends the path.
            ///
            /// Raises
            /// ------
            /// UnknownParameterError
            ///     If there is no such path.
            /// StillroomError
            ///     If the value is outside its domain.
            fn with_parameter(&self, py: pyo3::Python<'_>, path: &str, value: f64) -> pyo3::PyResult<pyo3::Py<Self>> {
                pyo3::Py::new(py, Self($crate::Parameters::with_parameter(&self.0, path, value)?))
            }

            /// The same object with several parameters changed at once.
            ///
            /// Parameters
            /// ----------
            /// changes : dict[str, float]
            ///     Path to new value.
            fn with_parameters(
                &self,
                py: pyo3::Python<'_>,
                changes: std::collections::BTreeMap<String, f64>,
            ) -> pyo3::PyResult<pyo3::Py<Self>> {
                let changes: Vec<(&str, f64)> = changes.iter().map(|(path, value)| (path.as_str(), *value)).collect();
                pyo3::Py::new(py, Self($crate::Parameters::with_parameters(&self.0, &changes)?))
            }
        }
    };
}
pub(crate) use parameter_methods;

/// Makes a leak class out of its core type: the base object holds a pointer to the same leak.
macro_rules! leak_class {
    ($class:ident) => {
        impl From<$class> for pyo3::PyClassInitializer<$class> {
            fn from(leak: $class) -> Self {
                pyo3::PyClassInitializer::from($crate::python::leak::PyLeak(std::sync::Arc::new(leak.0.clone())))
                    .add_subclass(leak)
            }
        }

        // Written out, since it is done by itself only for classes with no base: leaks are parts of others.
        impl<'py> pyo3::IntoPyObject<'py> for $class {
            type Target = Self;
            type Output = pyo3::Bound<'py, Self>;
            type Error = pyo3::PyErr;
            #[cfg(feature = "stubs")]
            const OUTPUT_TYPE: pyo3::inspect::PyStaticExpr = <Self as pyo3::PyTypeInfo>::TYPE_HINT;

            fn into_pyobject(self, py: pyo3::Python<'py>) -> pyo3::PyResult<Self::Output> {
                pyo3::Bound::new(py, self)
            }
        }
    };
}
pub(crate) use leak_class;
