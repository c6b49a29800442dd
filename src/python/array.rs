//! Arguments and results that behave like numpy's: scalar in, scalar out; array in, array out.

use std::borrow::Cow;

use super::signals::interruptible;
use crate::call_off::{Watch, in_pieces, unwatched};
use crate::error::Error;
use crate::lanes::Column;
use ndarray::{Array, ArrayD, ArrayViewD, Dimension, IxDyn};
use num_complex::Complex64;
use numpy::{Element, IntoPyArray, PyArrayDyn, PyArrayMethods, PyReadonlyArrayDyn, PyUntypedArrayMethods};
use pyo3::IntoPyObjectExt;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyBool, PyFloat, PyInt};
#[cfg(feature = "stubs")]
use pyo3::{inspect::PyStaticExpr, type_hint_identifier, type_hint_subscript, type_hint_union};

/// An argument not yet read: reading needs the argument's name for its error text, and the extractor is not told it.
pub struct RealArg<'py>(Bound<'py, PyAny>);

impl<'a, 'py> FromPyObject<'a, 'py> for RealArg<'py> {
    type Error = std::convert::Infallible;
    #[cfg(feature = "stubs")]
    const INPUT_TYPE: PyStaticExpr = type_hint_identifier!("numpy.typing", "ArrayLike");

    fn extract(object: Borrowed<'a, 'py, PyAny>) -> Result<Self, Self::Error> {
        Ok(Self(object.to_owned()))
    }
}

/// A real argument once read.
pub enum Real<'py> {
    Scalar(f64),
    Array(PyReadonlyArrayDyn<'py, f64>),
}

impl<'py> RealArg<'py> {
    /// The argument that the caller left out.
    pub fn number(py: Python<'py>, value: f64) -> Self {
        Self(PyFloat::new(py, value).into_any())
    }

    pub fn read(&self, name: &'static str) -> PyResult<Real<'py>> {
        let object = &self.0;
        // Fast path: a float (np.float64 is one too) or an int, with no numpy in sight.
        if let Ok(float) = object.cast::<PyFloat>() {
            return Ok(Real::Scalar(float.extract()?));
        }
        if object.is_instance_of::<PyInt>() && !object.is_instance_of::<PyBool>() {
            return Ok(Real::Scalar(object.extract()?));
        }
        if is_plain(object)
            && let Ok(array) = object.cast::<PyArrayDyn<f64>>()
        {
            return Real::from_array(array);
        }
        let py = object.py();
        let refuse = |found: String| -> PyErr {
            pyo3::exceptions::PyTypeError::new_err(format!(
                "`{name}` must be a real number or an array of real numbers, not {found}"
            ))
        };
        if is_masked(object)? {
            return Err(refuse("a masked array: fill or drop the masked entries first".into()));
        }
        static AS_ARRAY: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
        let array = AS_ARRAY.import(py, "numpy", "asarray")?.call1((object,)).map_err(|error| {
            let refused = refuse(format!("`{}`", type_name(object)));
            refused.set_cause(py, Some(error));
            refused
        })?;
        let dtype = array.getattr("dtype")?;
        let kind: String = dtype.getattr("kind")?.extract()?;
        if !matches!(kind.as_str(), "f" | "i" | "u") {
            return Err(refuse(format!("`{}` of dtype {dtype}", type_name(object))));
        }
        let array = array.call_method1("astype", ("float64",))?;
        Real::from_array(array.cast::<PyArrayDyn<f64>>()?)
    }
}

fn type_name(object: &Bound<'_, PyAny>) -> String {
    object.get_type().name().map_or_else(|_| "object".into(), |n| n.to_string())
}

/// An ndarray itself, no subclass: a subclass may carry a mask or a unit that the bare numbers would lose.
fn is_plain(object: &Bound<'_, PyAny>) -> bool {
    static NDARRAY: PyOnceLock<Py<PyAny>> = PyOnceLock::new();
    NDARRAY.import(object.py(), "numpy", "ndarray").is_ok_and(|class| object.get_type().is(class))
}

fn is_masked(object: &Bound<'_, PyAny>) -> PyResult<bool> {
    object.hasattr(pyo3::intern!(object.py(), "mask"))
}

impl<'py> Real<'py> {
    fn from_array(array: &Bound<'py, PyArrayDyn<f64>>) -> PyResult<Self> {
        // `readonly` would panic where another extension holds the array for writing.
        let array = array.try_readonly().map_err(|error| pyo3::exceptions::PyValueError::new_err(error.to_string()))?;
        if array.ndim() == 0 { Ok(Self::Scalar(array.as_array()[IxDyn(&[])])) } else { Ok(Self::Array(array)) }
    }
}

/// What a function of broadcast arguments gives back: scalar in, scalar out; array in, array out.
#[derive(Clone, PartialEq)]
pub enum Out<T> {
    Scalar(T),
    Array(ArrayD<T>),
}

impl<T> Out<T> {
    /// The same shape with each value turned into another.
    pub fn map<U>(&self, f: impl Fn(&T) -> U) -> Out<U> {
        match self {
            Self::Scalar(value) => Out::Scalar(f(value)),
            Self::Array(array) => Out::Array(array.map(f)),
        }
    }
}

/// Names a result type in the stubs.
pub trait Hint {
    #[cfg(feature = "stubs")]
    const OUTPUT: PyStaticExpr;
}
impl Hint for f64 {
    #[cfg(feature = "stubs")]
    const OUTPUT: PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "float"),
        type_hint_subscript!(
            type_hint_identifier!("numpy.typing", "NDArray"),
            type_hint_identifier!("numpy", "float64")
        )
    );
}
impl Hint for Complex64 {
    #[cfg(feature = "stubs")]
    const OUTPUT: PyStaticExpr = type_hint_union!(
        type_hint_identifier!("builtins", "complex"),
        type_hint_subscript!(
            type_hint_identifier!("numpy.typing", "NDArray"),
            type_hint_identifier!("numpy", "complex128")
        )
    );
}

impl<'py, T: Element + Hint + IntoPyObject<'py>> IntoPyObject<'py> for Out<T> {
    type Target = PyAny;
    type Output = Bound<'py, PyAny>;
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr = T::OUTPUT;

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        match self {
            Self::Scalar(value) => value.into_bound_py_any(py),
            Self::Array(array) => Ok(array.into_pyarray(py).into_any()),
        }
    }
}
/// One array argument to one array result by a batch kernel over contiguous slices; the GIL is released.
pub fn batch<T, F>(py: Python<'_>, name: &'static str, arg: &RealArg<'_>, zero: T, kernel: F) -> PyResult<Out<T>>
where
    T: Copy + Send + Sync,
    F: FnMut(&[f64], &mut [T]) -> Result<(), Error> + Send,
{
    let mut kernel = kernel;
    batch_columns(py, [name], [arg], zero, |[column], out| match column {
        Column::Same(x) => kernel(&[x], out),
        Column::Each(x) => kernel(x, out),
    })
}

/// Joint broadcasting of N real arguments through a batch kernel; the GIL is released. A scalar
/// argument reaches the kernel as one number, an array as a contiguous slice as long as the part of the result that
/// it is to fill: a long batch is done in pieces, and Ctrl-C is heard between them.
pub fn batch_columns<const N: usize, T, F>(
    py: Python<'_>,
    names: [&'static str; N],
    args: [&RealArg<'_>; N],
    zero: T,
    mut kernel: F,
) -> PyResult<Out<T>>
where
    T: Copy + Send + Sync,
    F: FnMut([Column<'_>; N], &mut [T]) -> Result<(), Error> + Send,
{
    let mut read = [const { Real::Scalar(f64::NAN) }; N];
    for (slot, (arg, name)) in read.iter_mut().zip(args.into_iter().zip(names)) {
        *slot = arg.read(name)?;
    }
    let Some(shape) = joint_shape(&names, &read)? else {
        let mut out = [zero];
        kernel(read.each_ref().map(Real::same), &mut out).map_err(Error::without_index)?;
        return Ok(Out::Scalar(out[0]));
    };
    let (views, same) = (read.each_ref().map(Real::view), read.each_ref().map(Real::same));
    let count = shape.size();
    let mut work = |watch: &mut Watch<'_>| -> Result<_, Error> {
        let wide = views.each_ref().map(|view| view.as_ref().map(|view| contiguous(view, &shape)));
        let columns: [Column<'_>; N] = std::array::from_fn(|i| wide[i].as_deref().map_or(same[i], Column::Each));
        let mut out = vec![zero; count];
        in_pieces(&mut out, watch, |start, part| {
            let columns = columns.map(|column| column.part(start, part.len()));
            kernel(columns, part).map_err(|error| error.moved(start))
        })?;
        Ok(out)
    };
    let out = if count < DETACH_FROM { work(&mut unwatched)? } else { interruptible(py, work)? };
    // The length is the shape's product by construction.
    ArrayD::from_shape_vec(shape, out)
        .map(Out::Array)
        .map_err(|e| pyo3::exceptions::PyValueError::new_err(e.to_string()))
}

/// Below this many elements letting go of the interpreter costs more than it gives.
const DETACH_FROM: usize = 16;

/// Joint broadcasting of N real arguments through a scalar function; the GIL is released.
pub fn broadcast<const N: usize, T, F>(
    py: Python<'_>,
    names: [&'static str; N],
    args: [&RealArg<'_>; N],
    mut f: F,
) -> PyResult<Out<T>>
where
    T: Copy + Default + Send + Sync,
    F: FnMut([f64; N]) -> Result<T, Error> + Send,
{
    batch_columns(py, names, args, T::default(), |columns, out| {
        for (place, slot) in out.iter_mut().enumerate() {
            *slot = f(columns.map(|column| column.get(place))).map_err(|error| match &error {
                Error::OutOfRange { quantity, .. } if is_array(&names, &columns, quantity) => error.at_index(place),
                _ => error,
            })?;
        }
        Ok(())
    })
}

fn is_array<const N: usize>(names: &[&'static str; N], columns: &[Column<'_>; N], quantity: &str) -> bool {
    names.iter().zip(columns).any(|(name, column)| *name == quantity && matches!(column, Column::Each(_)))
}

impl Real<'_> {
    /// All values in row-major order, borrowed where they lie like that.
    pub fn values(&self) -> Cow<'_, [f64]> {
        match self {
            Self::Scalar(x) => Cow::Borrowed(std::slice::from_ref(x)),
            Self::Array(array) => match array.as_slice() {
                Ok(slice) => Cow::Borrowed(slice),
                Err(_) => Cow::Owned(array.as_array().iter().copied().collect()),
            },
        }
    }

    fn same(&self) -> Column<'static> {
        match self {
            Self::Scalar(x) => Column::Same(*x),
            Self::Array(_) => Column::Same(f64::NAN),
        }
    }

    fn view(&self) -> Option<ArrayViewD<'_, f64>> {
        match self {
            Self::Scalar(_) => None,
            Self::Array(array) => Some(array.as_array()),
        }
    }
}

/// The values of `view` stretched to `shape`, borrowed where they lie in order already.
fn contiguous<'a>(view: &'a ArrayViewD<'_, f64>, shape: &IxDyn) -> Cow<'a, [f64]> {
    match view.as_slice() {
        Some(slice) if view.raw_dim() == *shape => Cow::Borrowed(slice),
        // `joint` has shown that every view broadcasts.
        _ => Cow::Owned(view.broadcast(shape.clone()).map_or(Vec::new(), |wide| wide.iter().copied().collect())),
    }
}

/// The shape that all arrays broadcast to; none where there is no array.
fn joint_shape<const N: usize>(names: &[&'static str; N], read: &[Real<'_>; N]) -> PyResult<Option<IxDyn>> {
    let mut shape: Option<Vec<usize>> = None;
    for (real, name) in read.iter().zip(names) {
        if let Real::Array(array) = real {
            let before = shape.unwrap_or_default();
            let joined = joint(&before, array.shape()).ok_or_else(|| {
                pyo3::exceptions::PyValueError::new_err(format!(
                    "`{name}` of shape {:?} does not broadcast with shape {before:?} of the arguments before it",
                    array.shape(),
                ))
            })?;
            shape = Some(joined);
        }
    }
    Ok(shape.map(|shape| IxDyn(&shape)))
}

fn joint(a: &[usize], b: &[usize]) -> Option<Vec<usize>> {
    let n = a.len().max(b.len());
    let at = |s: &[usize], i: usize| {
        if i + s.len() < n { 1 } else { s[i + s.len() - n] }
    };
    (0..n)
        .map(|i| match (at(a, i), at(b, i)) {
            (x, y) if x == y => Some(x),
            (1, y) => Some(y),
            (x, 1) => Some(x),
            _ => None,
        })
        .collect()
}

/// An array of fixed rank on its way to Python.
pub struct Nd<T, D>(pub Array<T, D>);

/// Names an element type in the stubs.
pub trait ElementHint {
    #[cfg(feature = "stubs")]
    const ELEMENT: PyStaticExpr;
}
impl ElementHint for f64 {
    #[cfg(feature = "stubs")]
    const ELEMENT: PyStaticExpr = type_hint_identifier!("numpy", "float64");
}
impl ElementHint for Complex64 {
    #[cfg(feature = "stubs")]
    const ELEMENT: PyStaticExpr = type_hint_identifier!("numpy", "complex128");
}
impl ElementHint for bool {
    #[cfg(feature = "stubs")]
    const ELEMENT: PyStaticExpr = type_hint_identifier!("numpy", "bool_");
}

impl<'py, T: Element + ElementHint, D: Dimension> IntoPyObject<'py> for Nd<T, D> {
    type Target = PyAny;
    type Output = Bound<'py, PyAny>;
    type Error = PyErr;
    #[cfg(feature = "stubs")]
    const OUTPUT_TYPE: PyStaticExpr =
        type_hint_subscript!(type_hint_identifier!("numpy.typing", "NDArray"), T::ELEMENT);

    fn into_pyobject(self, py: Python<'py>) -> PyResult<Self::Output> {
        Ok(self.0.into_pyarray(py).into_any())
    }
}

/// An object of a Python library that we only hand through, typed in the stubs.
macro_rules! foreign {
    ($name:ident = $module:literal . $class:literal) => {
        #[doc = concat!("`", $module, ".", $class, "`.")]
        pub struct $name<'py>(pub Bound<'py, PyAny>);

        impl<'a, 'py> FromPyObject<'a, 'py> for $name<'py> {
            type Error = std::convert::Infallible;
            #[cfg(feature = "stubs")]
            const INPUT_TYPE: PyStaticExpr = type_hint_identifier!($module, $class);

            fn extract(object: Borrowed<'a, 'py, PyAny>) -> Result<Self, Self::Error> {
                Ok(Self(object.to_owned()))
            }
        }

        impl<'py> IntoPyObject<'py> for $name<'py> {
            type Target = PyAny;
            type Output = Bound<'py, PyAny>;
            type Error = std::convert::Infallible;
            #[cfg(feature = "stubs")]
            const OUTPUT_TYPE: PyStaticExpr = type_hint_identifier!($module, $class);

            fn into_pyobject(self, _: Python<'py>) -> Result<Self::Output, Self::Error> {
                Ok(self.0)
            }
        }
    };
}
foreign!(ArrayLike = "numpy.typing"."ArrayLike");
foreign!(DataFrame = "pandas"."DataFrame");
foreign!(DataSet = "xarray"."Dataset");
foreign!(Axes = "matplotlib.axes"."Axes");

impl<'py> ArrayLike<'py> {
    /// The same as an array of complex numbers; `name` is the argument's, for the error text.
    pub fn complex(&self, name: &'static str) -> PyResult<PyReadonlyArrayDyn<'py, Complex64>> {
        let numpy = self.0.py().import("numpy")?;
        let array = numpy.call_method1("asarray", (&self.0,))?;
        let kind: String = array.getattr("dtype")?.getattr("kind")?.extract()?;
        if !matches!(kind.as_str(), "c" | "f" | "i" | "u") {
            return Err(pyo3::exceptions::PyTypeError::new_err(format!(
                "`{name}` must be an array of complex numbers, not `{}` of dtype {}",
                type_name(&self.0),
                array.getattr("dtype")?
            )));
        }
        let array = array.call_method1("astype", ("complex128",))?;
        array
            .cast::<PyArrayDyn<Complex64>>()?
            .try_readonly()
            .map_err(|error| pyo3::exceptions::PyValueError::new_err(error.to_string()))
    }
}
