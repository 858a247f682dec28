//! What the house measures with: the steps that its sheets are rounded to.

use crate::diagnostic::{Code, Diagnostic};
use crate::input::{AMOUNT, ANY_NUMBER, FieldKind, FieldShape, FileReader, Given, Laid, Layout, layout};
use crate::units::LiteralError;
use crate::units::display::as_read;
use crate::units::{Mass, Volume, grams, in_grams, in_millilitres, readers};

/// What reads in steps up to an end: a scale ("1 g up to 5 kg"), a measuring jug ("10 ml up to 1 L").
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale<T = Mass> {
    /// The step in which it reads.
    pub step: T,
    /// The most that it carries or holds.
    pub up_to: T,
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
    pub jug: Option<Scale<Volume>>,
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

impl Laid for Instruments {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[instruments]",
        (
            "scale",
            SCALE,
            "\"1 g up to 5 kg\"",
            "the scale for the batch: its step, and the most it takes",
            |i, scale| { (i.scale, i.scale_assumed) = (scale.value, false) }
        ),
        ("fine_scale", SCALE, "\"0.1 g up to 500 g\"", "a finer scale, for acids and spices", fine_scale),
        ("refractometer", BRIX_STEP, "\"0.2 °Bx\"", "the step of the refractometer", |i, step| {
            (i.refractometer_brix, i.refractometer_assumed) = (step.value, false)
        }),
        ("jug", JUG, "\"10 ml up to 1 L\"", "a measuring jug: its step, and the most it holds", jug),
        ("hydrometer", STEP, "0.001", "the step of the hydrometer, in specific gravity", hydrometer_sg),
        ("ph_meter", STEP, "0.05", "the step of the pH meter", ph_meter),
    );
}

const SCALE: FieldKind<Scale> =
    FieldKind::new(FieldShape::Text, |given, reader| range(given, readers::mass, in_grams, reader));

const JUG: FieldKind<Scale<Volume>> =
    FieldKind::new(FieldShape::Text, |given, reader| range(given, readers::volume, in_millilitres, reader));

const BRIX_STEP: FieldKind<f64> = FieldKind::new(AMOUNT, |given, reader| {
    let step = given.amount(reader, readers::brix)?;
    positive(given, step.get(), reader)
});

const STEP: FieldKind<f64> = FieldKind::new(ANY_NUMBER, |given, reader| {
    let step = given.number(reader)?;
    positive(given, step, reader)
});

/// "1 g up to 5 kg": the step and the most.
fn range<T: Copy>(
    given: &Given<'_>,
    read: fn(&str) -> Result<T, LiteralError>,
    number: fn(T) -> f64,
    reader: &mut FileReader<'_>,
) -> Option<Scale<T>> {
    let (key, written) = (given.about.key, given.text(reader)?);
    let ends = match written.split_once("up to").map(|(step, up_to)| (read(step.trim()), read(up_to.trim()))) {
        None => Err(format!("`{key}` does not say how far it goes")),
        Some((Err(error), _) | (_, Err(error))) => Err(error.title),
        Some((Ok(step), Ok(up_to))) if number(step) > 0.0 && number(up_to) > number(step) => Ok(Scale { step, up_to }),
        Some(_) => Err(format!("`{key}` goes from its step upwards; `{written}` does not")),
    };
    let said = |title| {
        let example = given.about.example;
        reader.found.push(
            Diagnostic::error(Code::WrongType, title)
                .at(given.value.span, "its step and the most that it takes")
                .help(format!("for example {key} = {example}")),
        );
    };
    ends.map_err(said).ok()
}

fn positive(given: &Given<'_>, step: f64, reader: &mut FileReader<'_>) -> Option<f64> {
    if step > 0.0 {
        return Some(step);
    }
    reader.refuse(
        Diagnostic::error(Code::OutOfRange, format!("the step of `{}` is {}", given.about.key, as_read(step)))
            .at(given.value.span, "a step above zero was expected"),
    )
}
