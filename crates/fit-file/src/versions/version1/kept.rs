//! Between the file's own types and the document's, in both directions.
//!
//! A field that the document gains and the file forgets does not compile, and neither does one
//! that the file reads and the document drops. Every field is written and asked for, an absent
//! value as `None`: a line lost from a file edited by hand is an error, not another document.

use crate::text::Shape;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::sync::Arc;

/// A type of the file that stands for one of the document.
pub(crate) trait Kept: Sized {
    /// The document's type.
    type Doc;
    /// As it is written.
    fn from_doc(doc: &Self::Doc) -> Self;
    /// As it was read.
    fn into_doc(self) -> Self::Doc;
    /// What it looks like in the text.
    fn shape() -> Shape;
}

/// Reads a field that must be there, also where it may be `None`.
pub(crate) fn required<'de, D, T>(deserializer: D) -> Result<T, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    T::deserialize(deserializer)
}

/// Reads a field that may be left out, but is no `Some(…)` where it stands.
pub(crate) fn bare<'de, D, T>(deserializer: D) -> Result<Option<T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    T::deserialize(deserializer).map(Some)
}

/// Writes such a field; one that is left out is not written at all.
#[expect(clippy::ref_option, reason = "the signature that the derive calls")]
pub(crate) fn write_bare<S, T>(value: &Option<T>, serializer: S) -> Result<S::Ok, S::Error>
where
    S: Serializer,
    T: Serialize,
{
    match value {
        Some(value) => value.serialize(serializer),
        None => serializer.serialize_none(),
    }
}

/// A field that may be left out, as it is written: not at all where it says nothing.
pub(crate) fn said<T>(doc: &T::Doc) -> Option<T>
where
    T: Kept,
    T::Doc: Default + PartialEq,
{
    (*doc != T::Doc::default()).then(|| T::from_doc(doc))
}

/// A number that is one: RON also reads `NaN`, `inf` and turns `1e999` into infinity.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub(crate) struct Number(f64);

impl TryFrom<f64> for Number {
    type Error = String;

    fn try_from(value: f64) -> Result<Self, String> {
        if value.is_finite() {
            Ok(Self(value))
        } else {
            Err(format!("Expected a finite number but read {value}"))
        }
    }
}

impl From<Number> for f64 {
    fn from(number: Number) -> Self {
        number.0
    }
}

impl Kept for Number {
    type Doc = f64;

    fn from_doc(doc: &f64) -> Self {
        Self(*doc)
    }

    fn into_doc(self) -> f64 {
        self.0
    }

    fn shape() -> Shape {
        Shape::Number
    }
}

macro_rules! kept_as_they_are {
    ($($kind:ty => $shape:expr,)+) => {
        $(impl Kept for $kind {
            type Doc = Self;

            fn from_doc(doc: &Self) -> Self {
                doc.clone()
            }

            fn into_doc(self) -> Self {
                self
            }

            fn shape() -> Shape {
                $shape
            }
        })+
    };
}

kept_as_they_are! {
    String => Shape::Text,
    bool => Shape::Flag,
    u8 => Shape::Whole(0, i64::from(u8::MAX)),
    u32 => Shape::Whole(0, i64::from(u32::MAX)),
    i16 => Shape::Whole(i64::from(i16::MIN), i64::from(i16::MAX)),
}

impl<T: Kept> Kept for Option<T> {
    type Doc = Option<T::Doc>;

    fn from_doc(doc: &Self::Doc) -> Self {
        doc.as_ref().map(T::from_doc)
    }

    fn into_doc(self) -> Self::Doc {
        self.map(T::into_doc)
    }

    fn shape() -> Shape {
        Shape::Maybe(Box::new(T::shape()))
    }
}

impl<T: Kept> Kept for Vec<T> {
    type Doc = Vec<T::Doc>;

    fn from_doc(doc: &Self::Doc) -> Self {
        doc.iter().map(T::from_doc).collect()
    }

    fn into_doc(self) -> Self::Doc {
        self.into_iter().map(T::into_doc).collect()
    }

    fn shape() -> Shape {
        Shape::List(Box::new(T::shape()))
    }
}

impl<T: Kept> Kept for (T, T) {
    type Doc = (T::Doc, T::Doc);

    fn from_doc((one, other): &Self::Doc) -> Self {
        (T::from_doc(one), T::from_doc(other))
    }

    fn into_doc(self) -> Self::Doc {
        (self.0.into_doc(), self.1.into_doc())
    }

    fn shape() -> Shape {
        Shape::Row(2, Box::new(T::shape()))
    }
}

impl Kept for [Number; 3] {
    type Doc = [f64; 3];

    fn from_doc(doc: &Self::Doc) -> Self {
        doc.map(Number)
    }

    fn into_doc(self) -> Self::Doc {
        self.map(f64::from)
    }

    fn shape() -> Shape {
        Shape::Row(3, Box::new(Shape::Number))
    }
}

/// A value that the document shares.
#[derive(Debug, Serialize, Deserialize)]
#[serde(transparent)]
pub(crate) struct Shared<T>(T);

impl<T: Kept> Kept for Shared<T> {
    type Doc = Arc<T::Doc>;

    fn from_doc(doc: &Self::Doc) -> Self {
        Self(T::from_doc(doc))
    }

    fn into_doc(self) -> Self::Doc {
        Arc::new(self.0.into_doc())
    }

    fn shape() -> Shape {
        T::shape()
    }
}

/// Declares structs of the file whose fields are those of the document's struct of that name; behind a
/// `+` stand those that may be left out, and are where they say nothing.
macro_rules! kept {
    ($($name:ident { $($field:ident: $kind:ty,)* } $(+ { $($spare:ident: $spare_kind:ty,)+ })?)+) => {
        $(
            #[derive(Debug, serde::Serialize, serde::Deserialize)]
            #[serde(deny_unknown_fields)]
            #[allow(clippy::struct_field_names, reason = "the fields are the keys of the file")]
            pub(crate) struct $name {
                $(#[serde(deserialize_with = "crate::versions::version1::kept::required")] $field: $kind,)*
                $($(
                    #[serde(
                        default,
                        skip_serializing_if = "Option::is_none",
                        serialize_with = "crate::versions::version1::kept::write_bare",
                        deserialize_with = "crate::versions::version1::kept::bare"
                    )]
                    $spare: Option<$spare_kind>,
                )+)?
            }

            impl crate::versions::version1::kept::Kept for $name {
                type Doc = fit_doc::$name;

                fn from_doc(doc: &Self::Doc) -> Self {
                    let fit_doc::$name { $($field,)* $($($spare,)+)? } = doc;
                    Self {
                        $($field: crate::versions::version1::kept::Kept::from_doc($field),)*
                        $($($spare: crate::versions::version1::kept::said($spare),)+)?
                    }
                }

                fn into_doc(self) -> Self::Doc {
                    fit_doc::$name {
                        $($field: crate::versions::version1::kept::Kept::into_doc(self.$field),)*
                        $($($spare: self
                            .$spare
                            .map(crate::versions::version1::kept::Kept::into_doc)
                            .unwrap_or_default(),)+)?
                    }
                }

                fn shape() -> crate::text::Shape {
                    crate::text::Shape::Object(vec![
                        $(crate::text::Field::new(
                            stringify!($field),
                            <$kind as crate::versions::version1::kept::Kept>::shape(),
                        ),)*
                        $($(crate::text::Field::or_none(
                            stringify!($spare),
                            <$spare_kind as crate::versions::version1::kept::Kept>::shape(),
                        ),)+)?
                    ])
                }
            }
        )+
    };
}

/// Declares enums of the file, plain words, that stand for the document's enum of that name.
macro_rules! words {
    ($($name:ident { $($word:ident,)+ })+) => {
        $(
            #[derive(Debug, Clone, Copy, serde::Serialize, serde::Deserialize)]
            #[serde(rename_all = "snake_case")]
            pub(crate) enum $name { $($word,)+ }

            impl crate::versions::version1::kept::Kept for $name {
                type Doc = fit_doc::$name;

                fn from_doc(doc: &Self::Doc) -> Self {
                    match doc { $(fit_doc::$name::$word => Self::$word,)+ }
                }

                fn into_doc(self) -> Self::Doc {
                    match self { $(Self::$word => fit_doc::$name::$word,)+ }
                }

                fn shape() -> crate::text::Shape {
                    crate::text::Shape::Words(vec![$(crate::text::snake(stringify!($word)),)+])
                }
            }
        )+
    };
}

pub(crate) use {kept, words};
