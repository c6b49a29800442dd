//! The Python class of an element.

use proc_macro2::TokenStream;
use quote::{format_ident, quote};
use syn::parse::{Parse, ParseStream};
use syn::{Attribute, Expr, Ident, LitInt, LitStr, Result, Token, Type, braced};

use crate::element::Element;
use crate::field::{documentation, inner_of, literal};

/// Leaves the fields to be taken up by [`element_class`](crate::element_class), as a macro of the element's own name: by
/// itself for its own class, after an `@` for that of an element which it is a flat part of.
pub fn hand_over(element: &Element) -> TokenStream {
    let name = &element.name;
    let hidden = format_ident!("{}__fields", name);
    let given = element.told();
    let fields = given.iter().map(|field| {
        let (name, kind, described) = (&field.name, &field.kind, field.described());
        let default = field.default.as_ref().map(|default| quote!(= #default));
        let choice = field.choice.as_ref().map(|shown| match shown {
            Some(shown) => quote!(as #shown),
            None => quote!(as ""),
        });
        let python = field.python.as_ref().map(|python| quote!(as #python));
        let flat = field.is_flat.then(|| {
            let before = element.given().take_while(|other| other.name != field.name);
            let place = before.filter(|other| other.default.is_some() && !other.is_flat).count();
            quote!(flat #place)
        });
        quote!(#described #flat #name: #kind #choice #python #default;)
    });
    let fields = quote!(#(#fields)*);
    let arguments = given.iter().map(|field| {
        let (name, kind) = (&field.name, &field.kind);
        if field.is_left_open() { quote!(#name: Option<#kind>) } else { quote!(#name: #kind) }
    });
    let body = match &element.options.told {
        Some(told) => {
            let names = given.iter().map(|field| &field.name);
            quote!(Self::#told(#(#names),*))
        }
        None => {
            let filled = element.given().filter(|field| field.is_left_open()).map(|field| {
                let (name, default) = (&field.name, &field.default);
                quote! {
                    let #name = match #name {
                        Some(#name) => #name,
                        None => #default,
                    };
                }
            });
            let names = element.given().map(|field| &field.name);
            quote!(#(#filled)* Self::checked(#(#names),*))
        }
    };
    quote! {
        #[cfg(any(feature = "python", feature = "serde"))]
        #[automatically_derived]
        impl #name {
            /// By all that defines it; what has a default may be left out where a signature cannot show it.
            #[allow(dead_code, clippy::too_many_arguments, clippy::manual_unwrap_or_default, clippy::manual_unwrap_or)]
            pub(crate) fn from_fields(#(#arguments),*) -> crate::error::Result<Self> {
                #body
            }
        }
        #[cfg(feature = "python")]
        #[allow(unused_macros)]
        macro_rules! #hidden {
            (@ $($class:tt)*) => {
                stillroom_derive::element_class! { @ #name { #fields } $($class)* }
            };
            ($($class:tt)*) => {
                stillroom_derive::element_class! { #name { #fields } $($class)* }
            };
        }
        #[cfg(feature = "python")]
        #[allow(unused_imports)]
        pub(crate) use #hidden as #name;
    }
}

/// Whether a default is none that a signature can show: then the argument is left open there and filled in later.
fn is_left_open(default: &Option<Expr>, kind: &Type) -> bool {
    default.as_ref().is_some_and(|default| literal(default).is_none() && inner_of(kind, "Option").is_none())
}

#[derive(Clone)]
struct Field {
    described: String,
    /// A part whose arguments are those of the whole, and how many optional ones of the whole's own go before its own.
    flat: Option<usize>,
    name: Ident,
    kind: Type,
    /// One of a few by name, with the name of the default where it has one.
    choice: Option<String>,
    /// Python's type for it, where it is not `PyName`.
    python: Option<Ident>,
    default: Option<Expr>,
}

impl Parse for Field {
    fn parse(input: ParseStream<'_>) -> Result<Self> {
        let described = input.parse::<LitStr>()?.value();
        let mut name = input.parse()?;
        let mut flat = None;
        if input.peek(LitInt) {
            flat = Some(input.parse::<LitInt>()?.base10_parse()?);
            name = input.parse()?;
        }
        input.parse::<Token![:]>()?;
        let kind = input.call(Type::without_plus)?;
        let (mut choice, mut python) = (None, None);
        if input.parse::<Option<Token![as]>>()?.is_some() {
            if input.peek(LitStr) {
                choice = Some(input.parse::<LitStr>()?.value());
            } else {
                python = Some(input.parse()?);
            }
        }
        let default = match input.parse::<Option<Token![=]>>()? {
            Some(_) => Some(input.parse()?),
            None => None,
        };
        input.parse::<Token![;]>()?;
        Ok(Self { described, flat, name, kind, choice, python, default })
    }
}

impl Field {
    /// What Python has given for it, as the element takes it.
    fn value(&self) -> TokenStream {
        let (name, kind) = (&self.name, &self.kind);
        if self.choice.is_some() {
            let parsed = quote!(#name.parse()?);
            return if is_left_open(&self.default, kind) { quote!(Some(#parsed)) } else { parsed };
        }
        if is_left_open(&self.default, kind) {
            let one = to_core(kind, self.python.as_ref(), quote!(given));
            quote!(#name.map(|given| #one))
        } else {
            to_core(kind, self.python.as_ref(), quote!(#name))
        }
    }
}

/// `Element { fields } /// docs  class PyElement [keywords] [extends PyLeak] [in subject];`, `keywords` where what has a
/// default is to be named in the call.
///
/// In front may stand `@ Part { fields }` for each flat part; what is missing of these is asked for.
pub struct Class {
    /// All of it, to be handed on.
    tokens: TokenStream,
    parts: Vec<(Ident, Vec<Field>)>,
    element: Ident,
    fields: Vec<Field>,
    doc: Vec<String>,
    name: Ident,
    has_keywords: bool,
    base: Option<Ident>,
    /// The module below `stillroom` where Python finds it; none for the top.
    subject: Option<Ident>,
}

impl Parse for Class {
    fn parse(input: ParseStream<'_>) -> Result<Self> {
        let tokens = input.fork().parse()?;
        let mut parts = Vec::new();
        while input.parse::<Option<Token![@]>>()?.is_some() {
            parts.push((input.parse()?, fields_of(input)?));
        }
        let element = input.parse()?;
        let fields = fields_of(input)?;
        let doc = documentation(&input.call(Attribute::parse_outer)?);
        let word: Ident = input.parse()?;
        if word != "class" {
            return Err(syn::Error::new(word.span(), "expected `class PyName;` or `class PyName extends PyBase;`"));
        }
        let name = input.parse()?;
        let (mut base, mut has_keywords) = (None, false);
        while input.peek(Ident) {
            match input.parse::<Ident>()? {
                word if word == "keywords" => has_keywords = true,
                _ => base = Some(input.parse()?),
            }
        }
        let subject = match input.parse::<Option<Token![in]>>()? {
            Some(_) => Some(input.parse()?),
            None => None,
        };
        input.parse::<Option<Token![;]>>()?;
        Ok(Self { tokens, parts, element, fields, doc, name, has_keywords, base, subject })
    }
}

fn fields_of(input: ParseStream<'_>) -> Result<Vec<Field>> {
    let inner;
    braced!(inner in input);
    let mut fields = Vec::new();
    while !inner.is_empty() {
        fields.push(inner.parse()?);
    }
    Ok(fields)
}

/// An argument of the constructor: a field of the element, or of a flat part of it.
struct Argument<'a> {
    field: &'a Field,
    part: Option<&'a Ident>,
}

impl Class {
    /// What a flat part is made from.
    fn part(&self, kind: &Type) -> &[Field] {
        let name = last_name(kind);
        self.parts.iter().find(|(part, _)| *part == name).map_or(&[], |(_, fields)| fields)
    }

    /// The constructor's arguments in order: those without a default, then the others.
    fn arguments(&self) -> Vec<Argument<'_>> {
        let own = |field| Argument { field, part: None };
        let within = |whole: &'_ Field, has_default: bool| -> Vec<Argument<'_>> {
            let (fields, part) = (self.part(&whole.kind), &self.fields);
            let part = part.iter().find(|field| field.name == whole.name).map(|field| &field.name);
            let wanted = fields.iter().filter(|field| field.default.is_some() == has_default);
            wanted.map(|field| Argument { field, part }).collect()
        };
        let mut arguments = Vec::new();
        for field in &self.fields {
            match field.flat {
                Some(_) => arguments.extend(within(field, false)),
                None if field.default.is_none() => arguments.push(own(field)),
                None => {}
            }
        }
        let flat_at = |place: usize| self.fields.iter().filter(move |field| field.flat == Some(place));
        let optional: Vec<&Field> =
            self.fields.iter().filter(|field| field.flat.is_none() && field.default.is_some()).collect();
        for place in 0..=optional.len() {
            arguments.extend(flat_at(place).flat_map(|field| within(field, true)));
            arguments.extend(optional.get(place).map(|field| own(field)));
        }
        arguments
    }

    pub fn expand(&self) -> TokenStream {
        let has_fields = |field: &&Field| self.parts.iter().any(|(part, _)| *part == last_name(&field.kind));
        if let Some(missing) = self.fields.iter().find(|field| field.flat.is_some() && !has_fields(field)) {
            let (kind, tokens) = (&missing.kind, &self.tokens);
            return quote!(#kind! { @ #tokens });
        }
        let all = self.arguments();
        let (element, name, base) = (&self.element, &self.name, &self.base);
        let label = element.to_string();
        let doc = self.documentation();
        let module =
            self.subject.as_ref().map_or_else(|| "stillroom".to_owned(), |subject| format!("stillroom.{subject}"));
        let extends = base.as_ref().map(|base| quote!(extends = #base,));
        let (new_type, wrapped, family) = match base {
            Some(_) => (
                quote!(pyo3::PyResult<pyo3::PyClassInitializer<Self>>),
                quote!(Ok(Self(element).into())),
                quote!(crate::python::class::leak_class!(#name);),
            ),
            None => (
                quote!(pyo3::PyResult<Self>),
                quote!(Ok(Self(element))),
                quote!(crate::python::class::parameter_methods!(#name);),
            ),
        };
        let mut signature: Vec<_> = all
            .iter()
            .map(|Argument { field, .. }| {
                let name = &field.name;
                match (&field.default, &field.choice) {
                    (Some(_), Some(shown)) => quote!(#name = #shown),
                    (None, _) => quote!(#name),
                    (Some(default), _) if literal(default).is_some() => quote!(#name = #default),
                    (Some(_), _) => quote!(#name = None),
                }
            })
            .collect();
        let required = all.iter().filter(|argument| argument.field.default.is_none()).count();
        if self.has_keywords && required < signature.len() {
            signature.insert(required, quote!(*));
        }
        let arguments = all.iter().map(|Argument { field, .. }| {
            let (name, kind) = (&field.name, python_type(&field.kind, field.python.as_ref()));
            if field.choice.is_some() {
                return quote!(#name: &str);
            }
            if is_left_open(&field.default, &field.kind) { quote!(#name: Option<#kind>) } else { quote!(#name: #kind) }
        });
        let values = self.fields.iter().map(|field| {
            if field.flat.is_none() {
                return field.value();
            }
            let (kind, inner) = (&field.kind, self.part(&field.kind).iter().map(Field::value));
            let part = quote!(#kind::from_fields(#(#inner),*)?);
            if is_left_open(&field.default, kind) { quote!(Some(#part)) } else { part }
        });
        let getters = all.iter().map(|Argument { field, part }| {
            let element = part.map_or_else(|| quote!(element), |part| quote!(element.#part()));
            let (name, kind) = (&field.name, python_type(&field.kind, field.python.as_ref()));
            let doc = &field.described;
            if field.choice.is_some() {
                return quote!(#[doc = #doc] #name: &'static str = |element| #element.#name().name());
            }
            let value = to_python(&field.kind, field.python.as_ref(), quote!(#element.#name()));
            quote!(#[doc = #doc] #name: #kind = |element| #value)
        });
        quote! {
            #[doc = #doc]
            #[pyo3::pyclass(frozen, eq, from_py_object, #extends module = #module, name = #label)]
            #[derive(Clone, PartialEq)]
            pub struct #name(pub #element);
            #family

            #[pyo3::pymethods]
            impl #name {
                #[new]
                #[pyo3(signature = (#(#signature),*))]
                #[allow(clippy::too_many_arguments, clippy::needless_question_mark)]
                fn new(#(#arguments),*) -> #new_type {
                    let element = #element::from_fields(#(#values),*)?;
                    #wrapped
                }
            }

            crate::python::class::value_class!(#name, #label { #(#getters),* });
        }
    }

    /// The docstring: as written, the parameters in the place of `{parameters}`.
    fn documentation(&self) -> String {
        let mut lines = Vec::new();
        for line in &self.doc {
            if line.trim() != "{parameters}" {
                lines.push(line.clone());
                continue;
            }
            lines.extend(["Parameters".to_owned(), "----------".to_owned()]);
            for Argument { field, .. } in self.arguments() {
                let kind = if field.choice.is_some() { "str".to_owned() } else { said_type(&field.kind) };
                let default = match field.default.as_ref().map(literal) {
                    None => String::new(),
                    Some(_) if field.choice.is_some() => {
                        format!(", default {:?}", field.choice.as_deref().unwrap_or_default())
                    }
                    Some(None) => ", optional".to_owned(),
                    Some(Some(value)) => format!(", default {}", value.strip_suffix(".0").unwrap_or(&value)),
                };
                lines.push(format!("{} : {kind}{default}", field.name));
                lines.extend(wrapped(&field.described));
            }
        }
        lines.join("\n")
    }
}

/// A sentence in lines, set in below its parameter.
fn wrapped(sentence: &str) -> Vec<String> {
    const WIDTH: usize = 96;
    let mut lines = vec![String::from("   ")];
    for word in sentence.split_whitespace() {
        let fits = lines.last().is_some_and(|line| line.chars().count() + 1 + word.chars().count() <= WIDTH);
        if !fits {
            lines.push(String::from("   "));
        }
        if let Some(line) = lines.last_mut() {
            line.push(' ');
            line.push_str(word);
        }
    }
    lines
}

/// The outermost name of a type.
fn last_name(kind: &Type) -> String {
    match kind {
        Type::Path(path) => path.path.segments.last().map(|last| last.ident.to_string()).unwrap_or_default(),
        _ => String::new(),
    }
}

fn is_plain(kind: &Type) -> bool {
    matches!(last_name(kind).as_str(), "f64" | "usize" | "u32" | "bool" | "String")
}

/// The type that Python hands over: `PyName` for `Name`, unless another is given.
fn python_type(kind: &Type, python: Option<&Ident>) -> TokenStream {
    for outer in ["Option", "Vec"] {
        if let Some(inner) = inner_of(kind, outer) {
            let (outer, inner) = (format_ident!("{outer}"), python_type(inner, python));
            return quote!(#outer<#inner>);
        }
    }
    if let Some(python) = python {
        return quote!(#python);
    }
    if is_plain(kind) {
        return quote!(#kind);
    }
    let name = format_ident!("Py{}", last_name(kind));
    quote!(#name)
}

fn to_core(kind: &Type, python: Option<&Ident>, value: TokenStream) -> TokenStream {
    let one = |inner: &Type| to_core(inner, python, quote!(inner));
    match (inner_of(kind, "Option"), inner_of(kind, "Vec")) {
        (Some(inner), _) if python.is_some() => {
            let one = one(inner);
            quote!(#value.map(|inner| -> pyo3::PyResult<_> { Ok(#one) }).transpose()?)
        }
        (_, Some(inner)) if python.is_some() => {
            let one = one(inner);
            quote!(#value.into_iter().map(|inner| -> pyo3::PyResult<_> { Ok(#one) }).collect::<pyo3::PyResult<_>>()?)
        }
        _ if python.is_some() => quote!(#value.into_core()?),
        _ if is_plain(kind) => value,
        (Some(inner), _) | (_, Some(inner)) if is_plain(inner_of(inner, "Vec").unwrap_or(inner)) => value,
        (Some(inner), _) => {
            let one = one(inner);
            quote!(#value.map(|inner| #one))
        }
        (_, Some(inner)) => {
            let one = one(inner);
            quote!(#value.into_iter().map(|inner| #one).collect())
        }
        _ => quote!(#value.0),
    }
}

/// From what the accessor gives.
fn to_python(kind: &Type, python: Option<&Ident>, value: TokenStream) -> TokenStream {
    let class = |inner: &Type| python_type(inner, None);
    match (inner_of(kind, "Option"), inner_of(kind, "Vec"), python) {
        (Some(_), _, Some(python)) => quote!(#value.map(#python::from_core)),
        (_, Some(_), Some(python)) => quote!(#value.iter().map(#python::from_core).collect()),
        (_, _, Some(python)) => quote!(#python::from_core(#value)),
        _ if last_name(kind) == "String" => quote!(#value.to_owned()),
        _ if is_plain(kind) => value,
        (Some(inner), ..) if last_name(inner) == "f64" => value,
        (Some(inner), ..) if is_plain(inner) => quote!(#value.cloned()),
        (_, Some(inner), _) if is_plain(inner) => quote!(#value.to_vec()),
        (Some(inner), ..) if inner_of(inner, "Vec").is_some() => {
            let list = to_python(inner, None, quote!(list));
            quote!(#value.map(|list| #list))
        }
        (Some(inner), ..) => {
            let class = class(inner);
            quote!(#value.map(|inner| #class(inner.to_owned())))
        }
        (_, Some(inner), _) => {
            let class = class(inner);
            quote!(#value.iter().map(|inner| #class(inner.to_owned())).collect())
        }
        _ => {
            let class = class(kind);
            quote!(#class(#value.to_owned()))
        }
    }
}

/// The type as a docstring says it.
fn said_type(kind: &Type) -> String {
    if let Some(inner) = inner_of(kind, "Option") {
        return said_type(inner);
    }
    if let Some(inner) = inner_of(kind, "Vec") {
        return format!("sequence of {}", said_type(inner));
    }
    match last_name(kind).as_str() {
        "f64" => "float".into(),
        "usize" | "u32" => "int".into(),
        "String" => "str".into(),
        other => other.to_owned(),
    }
}
