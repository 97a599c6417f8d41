//! Outlines and series: rows of integers, written as differences.

use serde::Serialize;

use super::field::{Field, FieldError, record};
use super::value::Value;

record! {
    /// Where the local frame's origin lies; a taped bed needs none.
    Anchor {
        /// North positive, 1e-9 degree.
        latitude_e9: i64,
        /// East positive, 1e-9 degree.
        longitude_e9: i64,
    }
}

/// Corners in mm of the local frame (east, north), not repeated at the end; empty where only the size is known.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct Outline(pub Vec<[i32; 2]>);

impl Field for Outline {
    fn to_value(&self) -> Value {
        let (mut x, mut y) = (0, 0);
        let mut list = Vec::with_capacity(self.0.len() * 2);
        for [east, north] in &self.0 {
            list.push(Value::Int(i64::from(*east) - x));
            list.push(Value::Int(i64::from(*north) - y));
            (x, y) = (i64::from(*east), i64::from(*north));
        }
        Value::List(list)
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        let Value::List(items) = value else { return Err(FieldError::Type("an outline")) };
        let (pairs, rest) = items.as_chunks::<2>();
        if !rest.is_empty() {
            return Err(FieldError::Type("pairs of east and north"));
        }
        let (mut x, mut y) = (0, 0);
        pairs
            .iter()
            .map(|[east, north]| {
                x = step(x, east)?;
                y = step(y, north)?;
                Ok([x, y])
            })
            .collect::<Result<_, _>>()
            .map(Self)
    }
}

/// A row of figures.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct Series(pub Vec<i32>);

impl Field for Series {
    fn to_value(&self) -> Value {
        let mut last = 0;
        Value::List(
            self.0
                .iter()
                .map(|figure| {
                    let difference = i64::from(*figure) - last;
                    last = i64::from(*figure);
                    Value::Int(difference)
                })
                .collect(),
        )
    }

    fn from_value(value: &Value) -> Result<Self, FieldError> {
        let Value::List(items) = value else { return Err(FieldError::Type("a row of figures")) };
        let mut last = 0;
        items
            .iter()
            .map(|item| {
                last = step(last, item)?;
                Ok(last)
            })
            .collect::<Result<_, _>>()
            .map(Self)
    }
}

fn step(last: i32, difference: &Value) -> Result<i32, FieldError> {
    i64::from_value(difference)?
        .checked_add(i64::from(last))
        .and_then(|sum| i32::try_from(sum).ok())
        .ok_or(FieldError::Range("a figure of 32 bits"))
}
