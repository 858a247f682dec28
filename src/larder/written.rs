//! The keys of one `[ingredient."name"]`, as they are written in a house's larder file.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{FOOD, FieldKind, FieldShape, Hints, Laid, Layout, TEXT, TEXTS, Table, layout};
use crate::mixture::alcohol::{abv_of, mass_fraction_of_proof};
use crate::units::literal::parse;
use crate::units::readers::{self, Strength};
use crate::units::{Brix, Literal, LiteralError, Mass, MassDensity, in_grams_per_litre};
use crate::vocabulary::{FoodStatement, Word};

use super::ingredient::{Form, HOLDS};
use super::per_100g;

#[derive(Default)]
pub(super) struct Written {
    pub(super) like: Option<String>,
    pub(super) food: Option<FoodStatement>,
    pub(super) per_100g: Option<Spanned<Table>>,
    /// Percent by volume.
    pub(super) abv: Option<f64>,
    pub(super) brix: Option<Brix>,
    pub(super) sugar: Option<PerLitre>,
    pub(super) acid: Option<PerLitre>,
    pub(super) ph: Option<Spanned<f64>>,
    pub(super) price: Option<Spanned<String>>,
    pub(super) priced_on: Option<String>,
    pub(super) bought: Option<Spanned<Mass>>,
    pub(super) usable: Option<Spanned<Usable>>,
    pub(super) form: Option<Form>,
    pub(super) density: Option<MassDensity>,
    pub(super) bulk: Option<MassDensity>,
    /// What a US cup of it weighs.
    pub(super) cup: Option<Mass>,
    pub(super) piece: Option<Mass>,
    pub(super) holds: Option<f64>,
    pub(super) tags: Option<Spanned<Vec<Spanned<String>>>>,
    pub(super) allergens: Option<Spanned<Vec<Spanned<String>>>>,
    pub(super) aliases: Vec<Spanned<String>>,
    pub(super) source: Option<String>,
    pub(super) notes: Option<String>,
}

/// Grams in a litre, and whether they were written as grams in 100 ml ("6 %").
#[derive(Clone, Copy)]
pub(super) struct PerLitre {
    pub(super) g_l: f64,
    pub(super) of_100_ml: bool,
}

/// What is usable, as a share of what was bought and as a weight: which is meant depends on `bought`.
pub(super) struct Usable {
    pub(super) share: Result<f64, LiteralError>,
    pub(super) weight: Result<Mass, LiteralError>,
}

impl Laid for Written {
    const LAYOUT: &'static Layout<Self> = layout!(
        "an ingredient",
        ("like", TEXT, "\"honey\"", "the ingredient that it is like but for what stands here", like),
        ("food", FOOD, "\"sold as food, label\"", "what states that it is food: what it is, and who says so", food),
        ("per_100g", PER_100G, "{ water = 35, sucrose = 65 }", "what is in 100 g of it, by analysis", per_100g),
        ("abv", FieldKind::amount(abv_percent), "\"40 %\"", "its strength, in percent by volume at 20 °C", abv),
        ("brix", FieldKind::amount(readers::brix), "\"65 °Bx\"", "its dissolved solids", brix),
        ("sugar", FieldKind::amount(grams_per_litre), "\"250 g/L\"", "its sugar", sugar),
        ("acid", FieldKind::amount(grams_per_litre), "\"58 g/L\"", "its titratable acid, as citric to pH 8.1", acid),
        ("ph", PH, "2.3", "its pH", ph),
        ("price", TEXT, "\"34.50 GBP / 700 ml\"", "what it costs", price),
        ("priced_on", WRITTEN_DAY, "2026-11-20", "the day of that price", priced_on),
        ("bought", FieldKind::amount(readers::mass), "\"5.2 kg\"", "of a yield test: what was bought", bought),
        ("usable", USABLE, "\"88.5 %\"", "what is usable of what is bought: a share, or the weight of a test", usable),
        ("form", FORM, "\"liquid\"", "whether it is poured or weighed", form),
        ("density", FieldKind::amount(readers::concentration), "\"0.85 g/ml\"", "the same as bulk", density),
        ("bulk", FieldKind::amount(readers::concentration), "\"0.85 g/ml\"", "what a solid weighs as it lies", bulk),
        ("cup", FieldKind::amount(readers::mass), "\"200 g\"", "what a US cup of it weighs", cup),
        ("piece", FieldKind::amount(readers::mass), "\"60 g\"", "what one piece weighs", piece),
        ("holds", HELD, "1.2", "what its strained solids keep: (wet weight out - weight in) / weight in", holds),
        ("tags", TEXTS, "[\"citrus\"]", "what cautions look for", tags),
        (
            "allergens",
            TEXTS,
            "[\"milk\"]",
            "the allergens that it brings; an empty list states that it brings none",
            allergens
        ),
        ("aliases", TEXTS, "[\"overproof\"]", "other names that it has in the house", aliases),
        ("source", TEXT, "\"the label\"", "where the figures come from", source),
        ("notes", TEXT, "\"from the market\"", "what else a maker should know", notes),
    );
}

/// The keys of a larder file, read into the table of its entries.
pub(super) const FILE: &Layout<Table> = layout!(
    "a larder file",
    ("ingredient", ENTRIES, "{ tonic = { brix = 9 } }", "the ingredients of the house, by name", |entries, read| {
        *entries = read.value
    })
);

const ENTRIES: FieldKind<Table> =
    FieldKind::new(FieldShape::Named(&FieldShape::Table(Written::LAYOUT)), |given, reader| {
        given.table(reader).cloned()
    });

/// Of a larder file no more is known than its keys.
pub(super) const HINTS: &Hints = &Hints::NONE;

const PER_100G: FieldKind<Table> =
    FieldKind::new(FieldShape::Table(&per_100g::Analysed), |given, reader| given.table(reader).cloned());

const PH: FieldKind<f64> = FieldKind::new(FieldShape::Number(0.0, 14.0), |given, reader| {
    let ph = given.number(reader)?;
    if !(0.0..=14.0).contains(&ph) {
        let title = format!("a pH of {ph} is not possible");
        return reader.refuse(Diagnostic::error(Code::OutOfRange, title).at(given.value.span, "0 to 14 was expected"));
    }
    Some(ph)
});

/// A day as it is written; the room of money reads it.
const WRITTEN_DAY: FieldKind<String> =
    FieldKind::new(FieldShape::Day, |given, reader| given.day(reader).map(str::to_owned));

const USABLE: FieldKind<Usable> =
    FieldKind::amount(|written| Ok(Usable { share: readers::fraction(written), weight: readers::mass(written) }));

const FORM: FieldKind<Form> = FieldKind::new(FieldShape::Words(|| Form::words().collect()), |given, reader| {
    let written = given.text(reader)?;
    let form = Form::parse(written);
    if form.is_none() {
        let diagnostic = Diagnostic::error(Code::WrongType, format!("a form is liquid or solid, not `{written}`"))
            .at(given.value.span, "liquid or solid");
        reader.found.push(match Form::nearest(written) {
            Some(meant) => {
                diagnostic.help(format!("did you mean `{meant}`?")).fix(given.value.span, format!("\"{meant}\""))
            }
            None => diagnostic,
        });
    }
    form
});

const HELD: FieldKind<f64> = FieldKind::new(FieldShape::Number(*HOLDS.start(), *HOLDS.end()), |given, reader| {
    let holds = given.number(reader)?;
    if !HOLDS.contains(&holds) {
        let (least, most) = HOLDS.into_inner();
        return reader.refuse(
            Diagnostic::error(Code::OutOfRange, format!("holds is {holds}; {least} to {most} is possible"))
                .at(given.value.span, "(wet weight out - weight in) / weight in"),
        );
    }
    Some(holds)
});

fn abv_percent(text: &str) -> Result<f64, LiteralError> {
    Ok(match readers::abv(text)? {
        Strength::Abv(abv) => abv.get(),
        // above 200 there is no such spirit: the density of more than pure ethanol is then refused
        Strength::Proof(proof) => mass_fraction_of_proof(proof).map_or(f64::INFINITY, |share| abv_of(share).get()),
    })
}

fn grams_per_litre(text: &str) -> Result<PerLitre, LiteralError> {
    match parse(text)? {
        Literal::Percent(fraction) => Ok(PerLitre { g_l: 1000.0 * fraction, of_100_ml: true }),
        _ => readers::concentration(text).map(|c| PerLitre { g_l: in_grams_per_litre(c), of_100_ml: false }),
    }
}
