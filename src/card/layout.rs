//! The keys of a card and of its stages.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{
    FieldKind, FieldShape, FileReader, Hints, Laid, Layout, TEXT, TEXTS, Table, Value, layout, quoted, word,
};
use crate::spelling::{is_near, words};
use crate::units::amount_range::lesser;
use crate::units::{Basis, readers, without_about};
use crate::vocabulary::{DrinkHow, Open, ProductClass, StatedProcess, Washed, Word, is_general};

use super::amount::{BatchYield, MAKES, PARTS, SERVING, STAGE_PARTS, Sized};
use super::check;
use super::drink::WEIGHED;
use super::heat::{self, HEATED};
use super::model::{Card, Ice, Keep, Loss, Measured, Stage};
use super::property::TargetTable;
use super::room::{AIM, AimTable};
use super::treatment::{AT, LABOUR, TAKES};

pub(super) static HINTS: Hints = Hints {
    file: "a card",
    homes: &[
        Card::LAYOUT,
        TargetTable::LAYOUT,
        Loss::LAYOUT,
        Keep::LAYOUT,
        Measured::LAYOUT,
        AimTable::LAYOUT,
        Ice::LAYOUT,
    ],
    other_names: &[
        ("title", "name"),
        ("yield", "makes"),
        ("batch", "makes"),
        ("size", "makes"),
        ("ingredients", "parts"),
        ("ingredient", "parts"),
        ("recipe", "parts"),
        ("method", "steps"),
        ("directions", "steps"),
        ("instructions", "steps"),
        ("stages", "stage"),
        ("losses", "loss"),
        ("storage", "keep"),
        ("type", "class"),
        ("serve", "serving"),
        ("abw", "abv"),
        ("goal", "aim"),
        ("minimise", "least"),
        ("minimize", "least"),
        ("maximise", "most"),
        ("maximize", "most"),
        ("alcohol", "abv"),
        ("sugars", "sugar"),
        ("boiled_off", "evaporated"),
        ("container", "in"),
        ("date", "on"),
        ("heat", "heated"),
        ("time", "takes"),
        ("duration", "takes"),
        ("labor", "labour"),
        ("work", "labour"),
    ],
    instead: &[("serves", FOR_SO_MANY), ("servings", FOR_SO_MANY), ("portions", FOR_SO_MANY), ("pax", FOR_SO_MANY)],
};

/// A card says what goes into one glass, or how much a batch is.
const FOR_SO_MANY: &str = "delete the line; a drink has the amounts of one glass, and its batch for 20 is: stillroom serve CARD --make 20; \
    a batch says how much it is: makes = \"2 L\", or makes = \"20 drinks\" with serving = \"100 ml\"";

impl Laid for Card {
    const LAYOUT: &'static Layout<Self> = layout!(
        "a card",
        "above the first heading",
        ["name", "parts"],
        ("name", NAME, "\"Rich muscovado syrup\"", "what the product is called", name),
        ("makes", MAKES, "\"1.5 L\"", "how much a batch is: a volume, a weight, bottles or pieces", |card, read| {
            let (makes, reading) = read.value;
            match makes {
                BatchYield::Of(makes) => card.makes = Some(Spanned { value: makes, span: read.span }),
                BatchYield::Pieces(count) => card.pieces = Some(count),
                BatchYield::Servings(count) => card.servings = Some(Spanned { value: count, span: read.span }),
            }
            card.makes_about = without_about(&reading.text) != reading.text || lesser(&reading.text).is_some();
            card.sizes.push(reading);
        }),
        (
            "bottle",
            FieldKind::amount(readers::volume),
            "\"700 ml\"",
            "what a bottle holds, where bottles are counted",
            bottle
        ),
        ("ratio", word::<Basis>(), "\"by weight\"", "what its ratios count, where their parts do not say", ratio),
        ("class", CLASS, "\"rich syrup\"", "what it may be called; it changes no date", class),
        ("process", PROCESS, "[\"fermented\"]", "what was done to it and is dangerous in its own way", process),
        ("serving", SERVING, "\"15 ml\"", "one measure of the product", |card, read| {
            let (serving, reading) = read.value;
            match serving {
                Sized::Of(serving) => card.serving = Some(Spanned { value: serving, span: read.span }),
                Sized::Pieces(count) => card.serving_pieces = Some(count),
            }
            card.sizes.push(reading);
        }),
        ("labour", LABOUR, "\"20 min\"", "work for one batch, waiting not counted", labour),
        ("target", TABLE_OF_TARGETS, "{ brix = 64 }", "what the finished liquid shall be", |card, targets| {
            (card.targets, card.ranges) = (targets.value.exact, targets.value.ranges);
            card.targets.sort_by_key(|target| target.span.start);
            card.ranges.sort_by_key(|range| range.span.start);
        }),
        ("aim", AIM, "{ least = \"cost\" }", "what it shall be best in, where targets leave room", aim),
        ("parts", PARTS, "{ water = \"1 L\", \"white sugar\" = \"2 kg\" }", "what it is made of", last.parts),
        (
            "stage",
            STAGES,
            "[{ name = \"tea\", parts = { clove = \"12 g\" } }]",
            "what is made first, in the order of the work",
            stages
        ),
        ("loss", FieldKind::<Loss>::table(), "{ evaporated = \"12 %\" }", "what is lost on the way", last.loss),
        ("heated", HEATED, "\"85 °C for 5 min\"", "how hot it gets, and for how long, or \"no\"", |card, told| {
            heat::heat(&mut card.last, told);
        }),
        ("takes", TAKES, "\"7 days\"", "how long it takes, waiting counted", last.takes),
        ("at", AT, "\"4 °C\"", "how warm it stands meanwhile", last.at),
        (
            "washed",
            word::<Washed>(),
            "\"fat\"",
            "with fat that is lifted off, or milk that is strained off",
            last.washed
        ),
        ("how", word::<DrinkHow>(), "\"shaken\"", "how it is made: it makes the card a drink, of one glass", drink.how),
        ("ice", FieldKind::<Ice>::table(), "{ grams = \"200 g\" }", "the ice that a drink meets", drink.ice),
        ("water", WEIGHED, "\"32 g\"", "what a drink gained from its ice, weighed", drink.water),
        ("glass", TEXT, "\"coupe\"", "what a drink is served in", drink.glass),
        ("garnish", TEXT, "\"a lime wheel\"", "what goes on a drink", drink.garnish),
        ("keep", FieldKind::<Keep>::table(), "{ fill = \"hot\" }", "how the product is kept", keep),
        ("measured", FieldKind::<Measured>::table(), "{ ph = 3.4 }", "what was read of the batch", measured),
        ("steps", STEPS, "[\"Stir until clear.\"]", "the method, a step a line", steps),
        ("source", TEXT, "\"house recipe of 2019\"", "where the card comes from", source),
        ("notes", TEXT, "\"lasts the weekend\"", "what else the maker should know", notes),
        (
            "for_a_guest",
            TEXT,
            "\"pour 85 ml, add 20 ml lime juice\"",
            "how a guest gets what is bottled: on its label",
            for_a_guest
        ),
        ("pours", TEXT, "\"Clove daiquiri\"", "the drink that is bottled ahead in it: its guests get this", pours),
    );
}

impl Laid for Stage {
    const LAYOUT: &'static Layout<Self> = layout!(
        "a stage",
        ["name", "parts"],
        ("name", NAME, "\"maceration\"", "what the stage is called, for the part that uses it", name),
        ("parts", STAGE_PARTS, "{ clove = \"12 g\" }", "what goes in: amounts, or one ratio", parts),
        ("loss", FieldKind::<Loss>::table(), "{ left_behind = \"3 %\" }", "what is lost on the way", loss),
        ("heated", HEATED, "\"85 °C for 5 min\"", "how hot it gets, and for how long, or \"no\"", heat::heat),
        ("takes", TAKES, "\"7 days\"", "how long it takes, waiting counted", takes),
        ("at", AT, "\"4 °C\"", "how warm it stands meanwhile", at),
        ("washed", word::<Washed>(), "\"fat\"", "with fat that is lifted off, or milk that is strained off", washed),
        ("steps", STEPS, "[\"Strain.\"]", "the method, a step a line", steps),
        ("target", NO_TARGET, "", "", |_, _| {}),
    );
}

const TABLE_OF_TARGETS: FieldKind<TargetTable> = FieldKind::table();

/// A name that is one; whose it is and that it is missing is said by [`check::named`].
const NAME: FieldKind<String> = FieldKind::new(FieldShape::Text, |given, reader| {
    Some(given.text(reader)?.trim().to_owned()).filter(|name| !name.is_empty())
});

const NO_TARGET: FieldKind<()> = FieldKind::new(FieldShape::None, |given, reader| {
    reader.refuse(
        Diagnostic::error(Code::StageRule, format!("{} has a target", given.place))
            .at(given.key.span, "only the finished product has targets")
            .help("give the parts of the stage amounts or one ratio, and put the target under [target] of the card"),
    )
});

const STAGES: FieldKind<Vec<Stage>> =
    FieldKind::new(FieldShape::List(&FieldShape::Table(Stage::LAYOUT)), |given, reader| {
        let tables = given.tables(reader);
        Some(tables.into_iter().map(|table| stage(&table, reader)).collect())
    });

fn stage(table: &Spanned<&Table>, reader: &mut FileReader<'_>) -> Stage {
    let name = match table.value.get("name") {
        Some((_, Spanned { value: Value::Text(name), .. })) => name.trim(),
        _ => "",
    };
    let place = if name.is_empty() { "a stage".to_owned() } else { format!("the stage `{name}`") };
    let stage = Stage::LAYOUT.read_at(table.value, &place, reader);
    check::named::<Stage>(table.value, "a stage", table.span, reader);
    check::stage(&stage, &place, table.span, reader);
    stage
}

/// The class; one that is not known is kept as it was written.
const CLASS: FieldKind<Open<ProductClass>> =
    FieldKind::new(FieldShape::Words(|| ProductClass::words().collect()), |given, reader| {
        let written = Spanned { value: given.text(reader)?.to_owned(), span: given.value.span };
        let class: Open<ProductClass> = Open::read(&written.value.trim().to_lowercase());
        if class.known().is_none() && !is_general(class.as_str()) {
            reader.found.push(nearest_word::<ProductClass>(
                Diagnostic::warning(Code::UnknownWord, format!("the class `{}` is not known", written.value))
                    .at(written.span, "it is ignored; what the product is made of decides"),
                &written,
                "classes",
            ));
        }
        Some(class)
    });

const PROCESS: FieldKind<Vec<StatedProcess>> =
    FieldKind::new(FieldShape::List(&FieldShape::Words(|| StatedProcess::words().collect())), |given, reader| {
        let mut done = Vec::new();
        for text in TEXTS.read(given, reader)? {
            match StatedProcess::parse(&text.value) {
                Some(process) => done.push(process),
                None => reader.found.push(nearest_word::<StatedProcess>(
                    Diagnostic::error(Code::UnknownWord, format!("the process `{}` is not known", text.value))
                        .at(text.span, "what was done decides what is dangerous"),
                    &text,
                    "processes",
                )),
            }
        }
        Some(done)
    });

/// Whether two names end in the same word, but for a slip: a "spiced rum" is no "spice syrup".
fn is_of_a_kind(one: &str, other: &str) -> bool {
    let same = |one: &String, other: &String| one == other || is_near(one, other);
    let (one, other) = (words(one), words(other));
    let last = one.last().zip(other.last()).is_some_and(|(one, other)| same(one, other));
    // a tea syrup is no nut syrup, whose first word is as short
    let first = one.len() != other.len() || one.iter().zip(&other).all(|(one, other)| same(one, other));
    last && first
}

/// With the word that was probably meant, or all of them.
fn nearest_word<W: Word>(found: Diagnostic, written: &Spanned<String>, all: &str) -> Diagnostic {
    match W::nearest(&written.value).filter(|meant| is_of_a_kind(&written.value, meant.word())) {
        Some(meant) => found.help(format!("did you mean `{}`?", meant.word())).fix(written.span, quoted(meant.word())),
        None => found.help(format!("the {all} are: {}", W::words().collect::<Vec<_>>().join(", "))),
    }
}

/// The method: a list of texts, or one text.
const STEPS: FieldKind<Vec<String>> =
    FieldKind::new(FieldShape::Either(&[FieldShape::List(&FieldShape::Text), FieldShape::Text]), |given, reader| {
        match &given.value.value {
            Value::Text(step) => Some(vec![step.clone()]),
            _ => Some(TEXTS.read(given, reader)?.into_iter().map(|step| step.value).collect()),
        }
    });
