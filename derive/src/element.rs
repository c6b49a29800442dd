//! What follows in the core from the fields of an element.

use proc_macro2::TokenStream;
use quote::{format_ident, quote};
use syn::parse::{Parse, ParseStream};
use syn::{Data, DeriveInput, Fields, Ident, LitStr, Result, Token, punctuated::Punctuated};

use crate::class;
use crate::field::{Field, Role, Shape, inner_of};

/// Arguments of `#[element(…)]`.
#[derive(Default)]
pub struct Options {
    pub new: Option<Vec<Ident>>,
    pub has_new: bool,
    pub settle: bool,
    pub errors: Option<String>,
    /// What makes it from what was told, where the default of one field depends on whether another was.
    pub told: Option<Ident>,
    pub no_serde: bool,
}

impl Parse for Options {
    fn parse(input: ParseStream<'_>) -> Result<Self> {
        let mut options = Self { has_new: true, ..Self::default() };
        while !input.is_empty() {
            let word: Ident = input.parse()?;
            match word.to_string().as_str() {
                "new" if input.peek(Token![=]) => {
                    input.parse::<Token![=]>()?;
                    input.parse::<Ident>()?;
                    options.has_new = false;
                }
                "new" => {
                    let inner;
                    syn::parenthesized!(inner in input);
                    options.new = Some(Punctuated::<Ident, Token![,]>::parse_terminated(&inner)?.into_iter().collect());
                }
                "settle" => options.settle = true,
                "told" => {
                    input.parse::<Token![=]>()?;
                    options.told = Some(input.parse()?);
                }
                "no_serde" => options.no_serde = true,
                "errors" => {
                    input.parse::<Token![=]>()?;
                    options.errors = Some(input.parse::<LitStr>()?.value());
                }
                _ => return Err(syn::Error::new(word.span(), "expected new, settle, told, errors or no_serde")),
            }
            if !input.is_empty() {
                input.parse::<Token![,]>()?;
            }
        }
        Ok(options)
    }
}

pub struct Element {
    pub name: Ident,
    pub fields: Vec<Field>,
    pub options: Options,
}

pub fn expand(input: &DeriveInput) -> Result<TokenStream> {
    let data = match &input.data {
        Data::Struct(data) => data,
        Data::Enum(data) => return one_of(&input.ident, data),
        Data::Union(_) => return Err(syn::Error::new_spanned(input, "an element is a struct or an enumeration")),
    };
    let Fields::Named(named) = &data.fields else {
        return Err(syn::Error::new_spanned(input, "an element is a struct with named fields"));
    };
    let mut options = Options { has_new: true, ..Options::default() };
    for attribute in input.attrs.iter().filter(|attribute| attribute.path().is_ident("element")) {
        options = attribute.parse_args()?;
    }
    let fields = named.named.iter().map(Field::read).collect::<Result<Vec<_>>>()?;
    let element = Element { name: input.ident.clone(), fields, options };
    let parts =
        [element.accessors(), element.construction()?, element.rebuild(), element.serial(), class::hand_over(&element)];
    Ok(parts.into_iter().collect())
}

impl Element {
    pub fn given(&self) -> impl Iterator<Item = &Field> {
        self.fields.iter().filter(|field| field.is_given())
    }

    /// The arguments by which all of it is told: those of `new`, then the others.
    pub fn told(&self) -> Vec<&Field> {
        let required: Vec<Ident> = self.required().unwrap_or_default().iter().map(|field| field.name.clone()).collect();
        let mut given: Vec<_> = self.given().collect();
        given.sort_by_key(|field| required.iter().position(|name| *name == field.name).unwrap_or(usize::MAX));
        given
    }

    /// The arguments of `new`, in their order.
    pub fn required(&self) -> Result<Vec<&Field>> {
        match &self.options.new {
            None => Ok(self.given().filter(|field| field.default.is_none()).collect()),
            Some(names) => names
                .iter()
                .map(|name| {
                    let found = self.fields.iter().find(|field| field.name == *name);
                    found.ok_or_else(|| syn::Error::new(name.span(), "no field of this name"))
                })
                .collect(),
        }
    }

    fn accessors(&self) -> TokenStream {
        let name = &self.name;
        let each = self.given().filter(|field| !field.is_hidden).map(|field| {
            let (accessor, kind) = (&field.name, &field.kind);
            let doc = accessor_doc(field);
            let (returned, body) = if field.is_copy || field.shape() != Shape::Other {
                (quote!(#kind), quote!(self.#accessor))
            } else if let Some(inner) = inner_of(kind, "Option") {
                (quote!(Option<&#inner>), quote!(self.#accessor.as_ref()))
            } else if let Some(inner) = inner_of(kind, "Vec") {
                (quote!(&[#inner]), quote!(&self.#accessor))
            } else if quote!(#kind).to_string() == "bool" {
                (quote!(bool), quote!(self.#accessor))
            } else if quote!(#kind).to_string() == "String" {
                (quote!(&str), quote!(&self.#accessor))
            } else {
                (quote!(&#kind), quote!(&self.#accessor))
            };
            quote! {
                #(#[doc = #doc])*
                #[must_use]
                pub fn #accessor(&self) -> #returned { #body }
            }
        });
        quote!(#[automatically_derived] impl #name { #(#each)* })
    }

    /// `new`, one `with_…` for each field that has a default, and what checks them all.
    fn construction(&self) -> Result<TokenStream> {
        let name = &self.name;
        let required = self.required()?;
        let new = if self.options.has_new {
            let arguments = required.iter().map(|field| {
                let (name, kind) = (&field.name, &field.kind);
                quote!(#name: #kind)
            });
            let is_filled = |field: &&Field| !required.iter().any(|one| one.name == field.name);
            let filled = self.given().filter(is_filled).map(|field| {
                let (name, kind, default) = (&field.name, &field.kind, &field.default);
                quote!(let #name: #kind = #default;)
            });
            let values = self.given().map(|field| &field.name);
            let doc = new_doc(&required, self.options.errors.as_deref());
            quote! {
                #(#[doc = #doc])*
                #[allow(clippy::too_many_arguments)]
                pub fn new(#(#arguments),*) -> crate::error::Result<Self> {
                    #(#filled)*
                    Self::checked(#(#values),*)
                }
            }
        } else {
            TokenStream::new()
        };
        let setters = self.given().filter_map(|field| {
            let setter = field.setter.as_ref()?;
            if self.options.has_new && required.iter().any(|one| one.name == field.name) {
                return None;
            }
            Some(self.setter(field, setter))
        });
        let given = self.given().map(|field| {
            let (name, kind) = (&field.name, &field.kind);
            quote!(#name: #kind)
        });
        let checks = self.fields.iter().map(check);
        let worked_out = self.fields.iter().filter(|field| !field.is_given()).map(|field| {
            let (name, initial) = (&field.name, &field.initial);
            initial
                .as_ref()
                .map_or_else(|| quote!(let #name = Default::default();), |value| quote!(let #name = #value;))
        });
        let names = self.fields.iter().map(|field| &field.name);
        let element = quote!(Self { #(#names),* });
        let settled = if self.options.settle { quote!(#element.settle()) } else { quote!(Ok(#element)) };
        Ok(quote! {
            #[automatically_derived]
            impl #name {
                #new
                #(#setters)*

                /// By all that defines it: every number within its domain, and what follows from them worked out.
                #[allow(clippy::too_many_arguments)]
                fn checked(#(#given),*) -> crate::error::Result<Self> {
                    #(#checks)*
                    #(#worked_out)*
                    #settled
                }
            }
        })
    }

    fn setter(&self, field: &Field, setter: &Ident) -> TokenStream {
        let (name, kind) = (&field.name, &field.kind);
        let (argument, value) = match inner_of(kind, "Option") {
            Some(inner) => (quote!(#inner), quote!(Some(value))),
            None => (quote!(#kind), quote!(value)),
        };
        let doc = format!(" The same with another value of this: {}.", lowered(&field.in_short()));
        let others = self.given().map(|field| &field.name);
        let values = self.given().map(|field| {
            let label = &field.name;
            if label == name { value.clone() } else { quote!(#label) }
        });
        let can_fail = !field.is_free
            && (self.options.settle || field.domain.is_some() || self.fields.iter().any(|field| !field.is_given()));
        if can_fail {
            let errors = format!(" For a value outside its domain{}.", self.refusals());
            quote! {
                #[doc = #doc]
                #[doc = ""]
                #[doc = " # Errors"]
                #[doc = #errors]
                pub fn #setter(self, value: #argument) -> crate::error::Result<Self> {
                    #[allow(unused_variables)]
                    let Self { #(#others,)* .. } = self;
                    Self::checked(#(#values),*)
                }
            }
        } else {
            quote! {
                #[doc = #doc]
                #[must_use]
                pub fn #setter(self, value: #argument) -> Self {
                    Self { #name: #value, ..self }
                }
            }
        }
    }

    fn refusals(&self) -> String {
        self.options.errors.as_ref().map_or_else(String::new, |errors| format!("; {errors}"))
    }

    fn rebuild(&self) -> TokenStream {
        let name = &self.name;
        let walk = self.given().map(|field| {
            let (name, unit) = (&field.name, &field.unit);
            let label = name.to_string();
            if let Some(walk) = &field.walk {
                return quote!(self.#walk(knobs)?);
            }
            match (field.role, field.whole_domain()) {
                (Role::Parameter, Some((domain, _))) => match field.shape() {
                    Shape::Optional => quote!(knobs.optional(#label, #unit, self.#name, #domain)),
                    Shape::Whole => quote!(knobs.whole(#label, self.#name, #domain)?),
                    _ => quote!(knobs.value(#label, #unit, self.#name, #domain)),
                },
                (Role::Part { inline: true }, _) => quote!(crate::parameter::Rebuild::rebuild(&self.#name, knobs)?),
                (Role::Part { .. }, _) => quote!(knobs.part(#label, &self.#name)?),
                _ => quote!(self.#name.clone()),
            }
        });
        quote! {
            #[automatically_derived]
            impl crate::parameter::Rebuild for #name {
                fn rebuild(&self, knobs: &mut crate::parameter::Knobs<'_>) -> crate::error::Result<Self> {
                    Self::checked(#(#walk),*)
                }
            }
        }
    }

    /// Reading and writing: the fields by name, unknown ones refused, every value through the checks again.
    fn serial(&self) -> TokenStream {
        if self.options.no_serde {
            return TokenStream::new();
        }
        let name = &self.name;
        let text = name.to_string();
        let (mut written, mut read, mut defaults) = (Vec::new(), Vec::new(), Vec::new());
        for field in self.given() {
            let (label, kind) = (&field.name, &field.kind);
            let is_number = field.shape() == Shape::Number;
            let with = is_number.then(|| quote!(#[serde(with = "crate::serial::number")]));
            let skip = field.is_optional().then(|| quote!(#[serde(skip_serializing_if = "Option::is_none")]));
            written.push(quote!(#with #skip #label: #kind));
            if field.is_left_open() {
                let with = is_number.then(|| quote!(#[serde(deserialize_with = "crate::serial::number::given")]));
                read.push(quote!(#[serde(default)] #with #label: Option<#kind>));
                continue;
            }
            let default = field.default.as_ref().map(|default| {
                let function = format_ident!("default_{}", label);
                let path = function.to_string();
                defaults.push(quote!(fn #function() -> #kind { #default }));
                quote!(#[serde(default = #path)])
            });
            read.push(quote!(#with #default #label: #kind));
        }
        let given: Vec<_> = self.given().map(|field| &field.name).collect();
        let told: Vec<_> = self.told().iter().map(|field| &field.name).collect();
        quote! {
            #[cfg(feature = "serde")]
            #[automatically_derived]
            #[allow(clippy::default_trait_access)]
            const _: () = {
                #(#defaults)*
                #[derive(serde::Serialize)]
                #[serde(rename = #text)]
                struct Written { #(#written),* }

                #[derive(serde::Deserialize)]
                #[serde(deny_unknown_fields, rename = #text)]
                struct Read { #(#read),* }

                impl serde::Serialize for #name {
                    fn serialize<S: serde::Serializer>(&self, to: S) -> std::result::Result<S::Ok, S::Error> {
                        let #name { #(#given,)* .. } = self.clone();
                        serde::Serialize::serialize(&Written { #(#given),* }, to)
                    }
                }

                impl<'de> serde::Deserialize<'de> for #name {
                    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> std::result::Result<Self, D::Error> {
                        let Read { #(#given),* } = serde::Deserialize::deserialize(from)?;
                        #name::from_fields(#(#told),*).map_err(serde::de::Error::custom)
                    }
                }
            };
        }
    }
}

/// The checks of one field: its domain, then its relations to others.
fn check(field: &Field) -> TokenStream {
    let (name, unit) = (&field.name, &field.unit);
    let label = name.to_string();
    let Some((domain, _)) = &field.domain else { return TokenStream::new() };
    let test = match field.shape() {
        Shape::Optional => quote! {
            let #name = #name.map(|value| crate::error::check::domain(#domain, #label, #unit, value)).transpose()?;
        },
        Shape::Whole => quote!(crate::error::check::domain(#domain, #label, #unit, #name as f64)?;),
        _ => quote!(let #name = crate::error::check::domain(#domain, #label, #unit, #name)?;),
    };
    let relations = field.relations.iter().map(|(relation, other)| {
        let other_label = other.to_string();
        let related = quote!(crate::error::check::#relation(#label, #unit, #name, #other_label, #other)?;);
        if field.shape() == Shape::Optional { quote!(if let Some(#name) = #name { #related }) } else { related }
    });
    quote!(#test #(#relations)*)
}

/// A getter's documentation: the field's, with the unit in its first sentence.
fn accessor_doc(field: &Field) -> Vec<String> {
    let mut doc = vec![format!(" {}", field.described())];
    let rest: Vec<&String> = field.doc.iter().skip_while(|line| !line.trim().is_empty()).collect();
    doc.extend(rest.into_iter().map(|line| format!(" {line}")));
    doc
}

fn new_doc(required: &[&Field], errors: Option<&str>) -> Vec<String> {
    let mut doc = vec![" By what defines it and has no default:".to_owned(), String::new()];
    doc.extend(required.iter().map(|field| format!(" * `{}`: {}", field.name, lowered(&field.in_short()))));
    doc.extend([String::new(), " # Errors".to_owned()]);
    let more = errors.map_or_else(String::new, |errors| format!("; {errors}"));
    doc.push(format!(" For a value outside its domain{more}."));
    doc
}

/// A sentence as it goes on after a colon.
fn lowered(sentence: &str) -> String {
    let mut letters = sentence.chars();
    match letters.next() {
        Some(first) if !letters.clone().next().is_some_and(char::is_uppercase) => {
            first.to_lowercase().chain(letters).collect()
        }
        _ => sentence.to_owned(),
    }
}

/// One of several elements: its parameters are those of the one that it is.
fn one_of(name: &Ident, data: &syn::DataEnum) -> Result<TokenStream> {
    let arms = data.variants.iter().map(|variant| match &variant.fields {
        Fields::Unnamed(fields) if fields.unnamed.len() == 1 => {
            let member = &variant.ident;
            Ok(quote!(Self::#member(one) => Self::#member(crate::parameter::Rebuild::rebuild(one, knobs)?)))
        }
        _ => Err(syn::Error::new_spanned(variant, "each member of an enumeration of elements holds one element")),
    });
    let arms = arms.collect::<Result<Vec<_>>>()?;
    Ok(quote! {
        #[automatically_derived]
        impl crate::parameter::Rebuild for #name {
            fn rebuild(&self, knobs: &mut crate::parameter::Knobs<'_>) -> crate::error::Result<Self> {
                Ok(match self { #(#arms),* })
            }
        }
    })
}
