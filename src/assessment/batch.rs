//! The batch as it is judged: what the card computes, with what was read of it in its place. Where the two differ by
//! more than their uncertainties one of them is wrong, nobody knows which, and the less favourable counts.

use chrono::NaiveDate;

use crate::card::{Card, Measured, TargetKind};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::larder::label::{self, LabelFigures};
use crate::mixture::Mixture;
use crate::properties::value_of;
use crate::solver::Solved;
use crate::solver::target::target_words;
use crate::uncertainty;
use crate::uncertainty::ingredient::TITRATED;
use crate::uncertainty::spread::READ_ABV;

/// A batch.
#[derive(Clone, Debug)]
pub struct JudgedBatch {
    /// The liquid with its readings, from which Brix, sugar, acid and water activity follow together; `None` where no
    /// such liquid can be.
    pub liquid: Option<Mixture>,
    /// Its strength, % vol.
    pub abv_pct: Option<f64>,
    /// How far off that may be, % vol.
    pub abv_doubt: f64,
    /// How far off its Brix may be, °Bx: what the solids of a strainer keep of the water nobody weighed.
    pub brix_doubt: f64,
    /// Whether the strength was read.
    pub abv_read: bool,
    /// The readings that count: none where the batch is not the one that the card describes.
    pub measured: Measured,
    /// Where a reading and what is computed disagree.
    pub found: Vec<Diagnostic>,
}

/// The batch of a solved card. Readings speak of the card as it stands: asked for with other targets it is another batch.
pub fn judged_batch(solved: &Solved, house: &House, made: Option<NaiveDate>) -> JudgedBatch {
    let computed = solved.bottled();
    let mut found = Vec::new();
    let of_another_day = read_on_another_day(&solved.card, made);
    let counts = solved.as_the_card_stands() && of_another_day.is_none();
    found.extend(of_another_day);
    let measured = if counts { solved.card.measured.clone() } else { Measured::default() };
    let uncertainties = uncertainty::of_headlines(solved, &house.settings.instruments);
    let uncertainty_of = |kind| uncertainty::find(&uncertainties, kind).map_or(0.0, |d| d.half_width);
    let mut counts = |kind: TargetKind, read: Option<f64>, of_reading: f64| {
        let (read, is) = (read.filter(|_| !computed.is_dry())?, value_of(kind, computed)?);
        if (read - is).abs() > of_reading + uncertainty_of(kind) {
            found.push(disagree(&solved.card, kind, read, is));
        }
        // Higher than computed and within the uncertainties is no news; higher beyond them is not believed.
        (read < is).then_some(read)
    };
    let value = |reading: &Option<crate::diagnostic::Spanned<f64>>| reading.map(|r| r.value);
    let brix = counts(TargetKind::Brix, value(&measured.brix), house.settings.instruments.refractometer_brix);
    let abv = counts(TargetKind::Abv, value(&measured.abv), READ_ABV);
    let acid = value(&measured.acid);
    let acid = counts(TargetKind::Acid, acid, TITRATED * acid.unwrap_or(0.0));
    let label = LabelFigures { abv, brix: brix.map(|b| b / 100.0), acid_g_l: acid, ..LabelFigures::default() };
    let liquid = if label.is_empty() {
        Some(*computed)
    } else {
        let total = computed.total_grams();
        label::composition(Some(&computed.per_gram()), &label).map(|gram| gram * total).ok()
    };
    if liquid.is_none() {
        found.push(impossible(&solved.card));
    }
    let abv_doubt = uncertainty_of(TargetKind::Abv).max(if abv.is_some() { READ_ABV } else { 0.0 });
    let by_refractometer = measured.brix.map(|_| house.settings.instruments.refractometer_brix);
    let brix_doubt = by_refractometer.unwrap_or_else(|| uncertainty_of(TargetKind::Brix));
    let strength = abv.or_else(|| value_of(TargetKind::Abv, computed));
    let abv_read = measured.abv.is_some();
    JudgedBatch { liquid, abv_pct: strength, abv_doubt, brix_doubt, abv_read, measured, found }
}

/// A reading of a day before the batch was made is of another batch.
fn read_on_another_day(card: &Card, made: Option<NaiveDate>) -> Option<Diagnostic> {
    let (on, made) = (card.measured.on.as_ref()?, made?);
    (on.value < made).then(|| {
        Diagnostic::warning(
            Code::ReadingDiffers,
            format!("the readings are of {}, before this batch was made on {made}", on.value),
        )
        .at(on.span, "they are of another batch and do not count")
        .help("read this batch and write its day; a card without `on` is taken as read in this batch")
        .in_file(&card.file)
    })
}

fn disagree(card: &Card, kind: TargetKind, read: f64, computed: f64) -> Diagnostic {
    let (read, computed) = (target_words(kind, read), target_words(kind, computed));
    Diagnostic::warning(
        Code::ReadingDiffers,
        format!("read {read}, but the card makes {computed}: more than both can be off"),
    )
    .help("the less favourable counts for its date; read it again, or look for what was weighed otherwise")
    .in_file(&card.file)
}

fn impossible(card: &Card) -> Diagnostic {
    Diagnostic::warning(Code::Contradiction, "no batch of this card can have all that was read of it")
        .help("its water activity and acid count as not known; in a spirit a refractometer does not show the sugar")
        .in_file(&card.file)
}

/// The readings in words, with their day; `None` where there is none.
pub(crate) fn in_words(measured: &Measured) -> Option<String> {
    let kinds = [
        (TargetKind::Ph, measured.ph),
        (TargetKind::Brix, measured.brix),
        (TargetKind::Abv, measured.abv),
        (TargetKind::Acid, measured.acid),
    ];
    let read: Vec<String> = kinds.iter().filter_map(|(kind, r)| Some(target_words(*kind, (*r)?.value))).collect();
    let on = measured.on.as_ref().map_or_else(String::new, |day| format!(" on {}", day.value));
    (!read.is_empty()).then(|| format!("as read{on}: {}", read.join(", ")))
}
