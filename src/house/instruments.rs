//! What the house measures with: the steps that its sheets are rounded to.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::Table;
use crate::larder::amounts::amount;
use crate::units::LiteralError;
use crate::units::{Mass, Volume, grams, in_grams, in_millilitres, readers};

/// A scale: "1 g up to 5 kg".
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// The step in which it reads.
    pub step: Mass,
    /// The most that it carries.
    pub up_to: Mass,
}

/// A measuring jug: "10 ml up to 1 L".
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jug {
    /// What its marks tell apart.
    pub step: Volume,
    /// The most that it holds.
    pub up_to: Volume,
}

/// The instruments. Where the house has not said what it has, `*_assumed` is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instruments {
    /// The scale for the batch.
    pub scale: Scale,
    /// Whether the scale is assumed.
    pub scale_assumed: bool,
    /// A finer scale for acids and spices.
    pub fine_scale: Option<Scale>,
    /// The step of the refractometer, °Bx.
    pub refractometer_brix: f64,
    /// Whether the refractometer is assumed.
    pub refractometer_assumed: bool,
    /// A measuring jug.
    pub jug: Option<Jug>,
    /// The step of the hydrometer, in specific gravity.
    pub hydrometer_sg: Option<f64>,
    /// The step of the pH meter.
    pub ph_meter: Option<f64>,
}

/// A kitchen scale of 1 g to 5 kg and a hand refractometer of 0.2 °Bx: `common practice, no source`.
impl Default for Instruments {
    fn default() -> Self {
        Self {
            scale: Scale { step: grams(1.0), up_to: grams(5000.0) },
            scale_assumed: true,
            fine_scale: None,
            refractometer_brix: 0.2,
            refractometer_assumed: true,
            jug: None,
            hydrometer_sg: None,
            ph_meter: None,
        }
    }
}

const KEYS: &[&str] = &["scale", "fine_scale", "refractometer", "jug", "hydrometer", "ph_meter"];

/// `[instruments]`
pub(super) fn read(table: &Table, found: &mut Vec<Diagnostic>) -> Instruments {
    table.check_keys("[instruments]", KEYS, found);
    let assumed = Instruments::default();
    let scale = |key, found: &mut Vec<Diagnostic>| {
        let (step, up_to) = range(table, key, "\"1 g up to 5 kg\"", readers::mass, in_grams, found)?;
        Some(Scale { step, up_to })
    };
    let batch_scale = scale("scale", found);
    let refractometer = positive(
        amount(table, "refractometer", readers::brix, found).map(|b| Spanned { value: b.value.get(), span: b.span }),
        "refractometer",
        found,
    );
    Instruments {
        scale: batch_scale.unwrap_or(assumed.scale),
        scale_assumed: batch_scale.is_none(),
        fine_scale: scale("fine_scale", found),
        refractometer_brix: refractometer.unwrap_or(assumed.refractometer_brix),
        refractometer_assumed: refractometer.is_none(),
        jug: range(table, "jug", "\"10 ml up to 1 L\"", readers::volume, in_millilitres, found)
            .map(|(step, up_to)| Jug { step, up_to }),
        hydrometer_sg: positive(table.number("hydrometer", found), "hydrometer", found),
        ph_meter: positive(table.number("ph_meter", found), "ph_meter", found),
    }
}

/// "1 g up to 5 kg": the step and the most.
fn range<T: Copy>(
    table: &Table,
    key: &str,
    example: &str,
    read: fn(&str) -> Result<T, LiteralError>,
    number: fn(T) -> f64,
    found: &mut Vec<Diagnostic>,
) -> Option<(T, T)> {
    let written = table.text(key, found)?;
    let wrong = |title: String| {
        Diagnostic::error(Code::WrongType, title)
            .at(written.span, "its step and the most that it takes")
            .help(format!("for example {key} = {example}"))
    };
    let Some((step, up_to)) = written.value.split_once("up to") else {
        found.push(wrong(format!("`{key}` does not say how far it goes")));
        return None;
    };
    let ends = match (read(step.trim()), read(up_to.trim())) {
        (Ok(step), Ok(up_to)) => (step, up_to),
        (Err(error), _) | (_, Err(error)) => {
            found.push(wrong(error.title));
            return None;
        }
    };
    if !(number(ends.0) > 0.0 && number(ends.1) > number(ends.0)) {
        found.push(wrong(format!("`{key}` goes from its step upwards; `{}` does not", written.value)));
        return None;
    }
    Some(ends)
}

fn positive(step: Option<Spanned<f64>>, key: &str, found: &mut Vec<Diagnostic>) -> Option<f64> {
    let step = step?;
    if step.value > 0.0 {
        return Some(step.value);
    }
    found.push(
        Diagnostic::error(Code::OutOfRange, format!("the step of `{key}` is {}", step.value))
            .at(step.span, "a step above zero was expected"),
    );
    None
}
