//! One field of an element, as its attribute describes it.

use proc_macro2::TokenStream;
use quote::{ToTokens, quote};
use syn::parse::{Parse, ParseStream};
use syn::{Attribute, Expr, Ident, Lit, LitStr, Meta, Result, Token, Type};

use crate::domain::Domain;
use crate::unit;

/// What a field is to its element.
#[derive(Clone, Copy, PartialEq)]
pub enum Role {
    Parameter,
    Part { inline: bool },
    Kept,
    WorkedOut,
}

/// The forms that a field's type has, as far as the macros must know them.
#[derive(Clone, Copy, PartialEq)]
pub enum Shape {
    Number,
    Whole,
    Optional,
    Other,
}

pub struct Field {
    pub name: Ident,
    pub kind: Type,
    pub role: Role,
    /// Its documentation, line by line.
    pub doc: Vec<String>,
    pub unit: String,
    pub domain: Option<(TokenStream, Domain)>,
    pub also: Option<String>,
    /// `at_most`, `less_than` and the other field.
    pub relations: Vec<(Ident, Ident)>,
    pub default: Option<Expr>,
    pub setter: Option<Ident>,
    pub is_copy: bool,
    /// Without an accessor.
    pub is_hidden: bool,
    /// Nothing depends on it: another one cannot fail.
    pub is_free: bool,
    /// Inline in Python too: the arguments of the part are arguments of the whole.
    pub is_flat: bool,
    /// A method of the element that walks through it, in place of the walk that follows from its type.
    pub walk: Option<Ident>,
    /// Python's type for it, where it is not `PyName`: one with `into_core` and `from_core`.
    pub python: Option<Ident>,
    /// One of a few by name, with the name of the default.
    pub choice: Option<Option<String>>,
    pub initial: Option<Expr>,
}

/// Arguments of `#[parameter(…)]` and its like.
#[derive(Default)]
struct Arguments {
    domain: Option<(TokenStream, Domain)>,
    unit: Option<String>,
    also: Option<String>,
    relations: Vec<(Ident, Ident)>,
    default: Option<Expr>,
    setter: Option<Ident>,
    is_copy: bool,
    is_hidden: bool,
    is_free: bool,
    is_flat: bool,
    walk: Option<Ident>,
    python: Option<Ident>,
    inline: bool,
    choice: Option<Option<String>>,
}

impl Parse for Arguments {
    fn parse(input: ParseStream<'_>) -> Result<Self> {
        let mut arguments = Self::default();
        while !input.is_empty() {
            let word: Ident = input.parse()?;
            match word.to_string().as_str() {
                "unit" => arguments.unit = Some(text(input)?),
                "also" => arguments.also = Some(text(input)?),
                "default" => {
                    input.parse::<Token![=]>()?;
                    arguments.default = Some(input.parse()?);
                }
                "setter" => {
                    input.parse::<Token![=]>()?;
                    arguments.setter = Some(input.parse()?);
                }
                "python" => {
                    input.parse::<Token![=]>()?;
                    arguments.python = Some(input.parse()?);
                }
                "walk" => {
                    input.parse::<Token![=]>()?;
                    arguments.walk = Some(input.parse()?);
                }
                "at_most" | "less_than" => {
                    input.parse::<Token![=]>()?;
                    arguments.relations.push((word, input.parse()?));
                }
                "copy" => arguments.is_copy = true,
                "hidden" => arguments.is_hidden = true,
                "free" => arguments.is_free = true,
                "choice" => {
                    arguments.is_copy = true;
                    arguments.choice = Some(if input.peek(Token![=]) { Some(text(input)?) } else { None });
                }
                "inline" => arguments.inline = true,
                "flat" => (arguments.inline, arguments.is_flat) = (true, true),
                _ => arguments.domain = Some(domain(&word, input)?),
            }
            if !input.is_empty() {
                input.parse::<Token![,]>()?;
            }
        }
        Ok(arguments)
    }
}

fn text(input: ParseStream<'_>) -> Result<String> {
    input.parse::<Token![=]>()?;
    Ok(input.parse::<LitStr>()?.value())
}

/// A domain by its word: the expression for the crate, and the same value here, for the words.
fn domain(word: &Ident, input: ParseStream<'_>) -> Result<(TokenStream, Domain)> {
    let path = quote!(crate::parameter::Domain);
    let constant = |name: &str, domain| {
        let name = Ident::new(name, word.span());
        Ok((quote!(#path::#name), domain))
    };
    match word.to_string().as_str() {
        "finite" => return constant("FINITE", Domain::FINITE),
        "positive" => return constant("POSITIVE", Domain::POSITIVE),
        "non_negative" => return constant("NON_NEGATIVE", Domain::NON_NEGATIVE),
        "fraction" => return constant("FRACTION", Domain::FRACTION),
        "at_least_one" => return constant("AT_LEAST_ONE", Domain::AT_LEAST_ONE),
        "positive_or_infinite" => return constant("POSITIVE_OR_INFINITE", Domain::POSITIVE_OR_INFINITE),
        "incidence_angle" => return constant("INCIDENCE_ANGLE", Domain::INCIDENCE_ANGLE),
        "circuit_positive" => return constant("CIRCUIT_POSITIVE", Domain::CIRCUIT_POSITIVE),
        "circuit_non_negative" => return constant("CIRCUIT_NON_NEGATIVE", Domain::CIRCUIT_NON_NEGATIVE),
        "count" => return constant("COUNT", Domain::COUNT),
        "count_or_none" => return constant("COUNT_OR_NONE", Domain::COUNT_OR_NONE),
        _ => {}
    }
    let inner;
    syn::parenthesized!(inner in input);
    let numbers: Vec<f64> = inner.parse_terminated(number, Token![,])?.into_iter().collect();
    match (word.to_string().as_str(), numbers.as_slice()) {
        ("within", &[low, high]) => Ok((quote!(#path::within(#low, #high)), Domain::within(low, high))),
        ("whole", &[low, high]) => Ok((quote!(#path::within(#low, #high).whole()), Domain::within(low, high).whole())),
        ("at_least", &[low]) => Ok((quote!(#path::at_least(#low)), Domain::at_least(low))),
        ("above", &[low]) => Ok((quote!(#path::above(#low)), Domain::above(low))),
        ("from_to_below", &[low, high]) => {
            Ok((quote!(#path::from_to_below(#low, #high)), Domain::from_to_below(low, high)))
        }
        _ => Err(syn::Error::new(word.span(), "no domain of this name and so many numbers")),
    }
}

fn number(input: ParseStream<'_>) -> Result<f64> {
    let sign = if input.parse::<Option<Token![-]>>()?.is_some() { -1.0 } else { 1.0 };
    match input.parse::<Lit>()? {
        Lit::Float(value) => Ok(sign * value.base10_parse::<f64>()?),
        Lit::Int(value) => Ok(sign * value.base10_parse::<f64>()?),
        other => Err(syn::Error::new_spanned(other, "a number is expected")),
    }
}

impl Field {
    pub fn read(field: &syn::Field) -> Result<Self> {
        let name =
            field.ident.clone().ok_or_else(|| syn::Error::new_spanned(field, "fields of elements have names"))?;
        let mut found = None;
        for attribute in &field.attrs {
            let role = match attribute.path().get_ident().map(ToString::to_string).as_deref() {
                Some("parameter") => Role::Parameter,
                Some("part") => Role::Part { inline: false },
                Some("kept") => Role::Kept,
                Some("worked_out") => Role::WorkedOut,
                _ => continue,
            };
            found = Some((role, attribute));
        }
        let Some((role, attribute)) = found else {
            let wanted = "say what this field is: #[parameter(…)], #[part], #[kept] or #[worked_out]";
            return Err(syn::Error::new_spanned(field, wanted));
        };
        let mut initial = None;
        let arguments = match (&attribute.meta, role) {
            (Meta::List(list), Role::WorkedOut) => {
                initial = Some(list.parse_args()?);
                Arguments::default()
            }
            (Meta::List(list), _) => list.parse_args()?,
            _ => Arguments::default(),
        };
        let role = if arguments.inline { Role::Part { inline: true } } else { role };
        if role == Role::Parameter && arguments.domain.is_none() {
            return Err(syn::Error::new_spanned(attribute, "a parameter needs a domain"));
        }
        let doc = documentation(&field.attrs);
        if role != Role::WorkedOut && doc.is_empty() {
            return Err(syn::Error::new_spanned(
                field,
                "a sentence on what this is belongs here: accessor and help show it",
            ));
        }
        let unit = arguments.unit.unwrap_or_else(|| unit::of_name(&name.to_string()).to_owned());
        let mut read = Self {
            kind: field.ty.clone(),
            role,
            doc,
            unit,
            domain: arguments.domain,
            also: arguments.also,
            relations: arguments.relations,
            default: arguments.default,
            setter: None,
            is_copy: arguments.is_copy,
            is_hidden: arguments.is_hidden,
            is_free: arguments.is_free,
            is_flat: arguments.is_flat,
            walk: arguments.walk,
            python: arguments.python,
            choice: arguments.choice,
            initial,
            name,
        };
        if read.default.is_none() && read.is_optional() && role != Role::WorkedOut {
            read.default = Some(syn::parse_quote!(None));
        }
        if read.default.is_some() {
            read.setter = match arguments.setter {
                Some(word) if word == "none" => None,
                Some(word) => Some(word),
                None => Some(Ident::new(&format!("with_{}", read.name), read.name.span())),
            };
        }
        Ok(read)
    }

    pub fn shape(&self) -> Shape {
        match self.kind.to_token_stream().to_string().as_str() {
            "f64" => Shape::Number,
            "usize" => Shape::Whole,
            "Option < f64 >" => Shape::Optional,
            _ => Shape::Other,
        }
    }

    pub fn is_optional(&self) -> bool {
        inner_of(&self.kind, "Option").is_some()
    }

    /// Whether its default is none that can stand by itself: it may ask for other fields, or fail.
    pub fn is_left_open(&self) -> bool {
        self.default.as_ref().is_some_and(|default| literal(default).is_none()) && !self.is_optional()
    }

    pub fn is_given(&self) -> bool {
        self.role != Role::WorkedOut
    }

    /// The domain with all relations, as an expression of the crate and as words.
    pub fn whole_domain(&self) -> Option<(TokenStream, Domain)> {
        let (expression, domain) = self.domain.clone()?;
        let mut also: Vec<String> = self
            .relations
            .iter()
            .map(|(relation, other)| match relation.to_string().as_str() {
                "at_most" => format!("at most `{other}`"),
                _ => format!("less than `{other}`"),
            })
            .collect();
        also.extend(self.also.clone());
        if also.is_empty() {
            return Some((expression, domain));
        }
        let also = also.join(", ");
        let words: &'static str = Box::leak(also.clone().into_boxed_str());
        Some((quote!(#expression.and(#also)), domain.and(words)))
    }

    /// The first paragraph of its documentation: its first sentence without the full stop, and the others.
    fn sentences(&self) -> (String, String) {
        let paragraph: Vec<&str> =
            self.doc.iter().map(|line| line.trim()).take_while(|line| !line.is_empty()).collect();
        let paragraph = paragraph.join(" ");
        match paragraph.split_once(". ") {
            Some((first, others)) => (first.to_owned(), others.to_owned()),
            None => (paragraph.strip_suffix('.').unwrap_or(&paragraph).to_owned(), String::new()),
        }
    }

    /// What it is, its unit and its domain, in one sentence without the full stop.
    pub fn in_short(&self) -> String {
        let (mut words, _) = self.sentences();
        if !self.unit.is_empty() {
            words = format!("{words}, {}", self.unit);
        }
        match self.whole_domain() {
            Some((_, domain)) => format!("{words}; {domain}"),
            None => words,
        }
    }

    /// The same with a full stop, and what else its documentation says in the first paragraph.
    pub fn described(&self) -> String {
        let (_, others) = self.sentences();
        if others.is_empty() { format!("{}.", self.in_short()) } else { format!("{}. {others}", self.in_short()) }
    }
}

/// A default as a signature and a sentence can show it.
pub fn literal(default: &Expr) -> Option<String> {
    match default {
        Expr::Lit(_) => Some(quote!(#default).to_string()),
        Expr::Unary(unary) => literal(&unary.expr).map(|text| format!("-{text}")),
        _ => None,
    }
}

/// The type within `Outer<…>`.
pub fn inner_of<'a>(kind: &'a Type, outer: &str) -> Option<&'a Type> {
    let Type::Path(path) = kind else { return None };
    let last = path.path.segments.last()?;
    let syn::PathArguments::AngleBracketed(arguments) = &last.arguments else { return None };
    match arguments.args.first()? {
        syn::GenericArgument::Type(inner) if last.ident == outer => Some(inner),
        _ => None,
    }
}

/// Lines of a documentation comment.
pub fn documentation(attributes: &[Attribute]) -> Vec<String> {
    let lines = attributes.iter().filter(|attribute| attribute.path().is_ident("doc"));
    lines
        .filter_map(|attribute| match &attribute.meta {
            Meta::NameValue(pair) => match &pair.value {
                Expr::Lit(literal) => match &literal.lit {
                    Lit::Str(text) => Some(text.value()),
                    _ => None,
                },
                _ => None,
            },
            _ => None,
        })
        .map(|line| line.strip_prefix(' ').map_or(line.clone(), ToOwned::to_owned))
        .collect()
}
