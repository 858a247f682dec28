//! How much: the amounts of the parts, the yield and the measure.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{FOOD, FieldKind, FieldShape, FileReader, Given, Laid, Layout, Value, layout, misplaced, word};
use crate::larder::spoken::without_preparation;
use crate::larder::{self, Form, HOLDS, Larder};
use crate::spelling::fold;
use crate::units::amount_range::lesser;
use crate::units::display::as_read;
use crate::units::{
    Basis, Literal, Reading, Temperature, Volume, in_grams, in_grams_per_litre, in_millilitres, literal, read_of,
    without_about,
};
use crate::vocabulary::{CountedDrink, FoodStatement, GoesInAfter, Kind, Portion, Word};

use super::label_on_a_line::{OF_THE_LABEL, of_strength};
use super::model::{Amount, Card, Makes, Part, PartBounds, Stage};
use super::property::ABV_KIND;
use super::ratio::{self, PartLine};
use super::room;
use super::taken_as_strained::{STRAINED, SaidOut};
use super::treatment::AT;

const FORMS: &str = "an amount is one of: \"750 g\", \"700 ml\", \"3 each\", \"2 parts by weight\", \"6 g/L\", \"5 %\", \"as needed\", \"all\"";

const PARTS_SHAPE: FieldShape =
    FieldShape::Named(&FieldShape::Either(&[FieldShape::Text, FieldShape::Table(PartTable::LAYOUT)]));

pub(super) const PARTS: FieldKind<Vec<Part>> =
    FieldKind::new(PARTS_SHAPE, |given, reader| parts(given, reader, "[parts]", &|_| None));

pub(super) const STAGE_PARTS: FieldKind<Vec<Part>> = FieldKind::new(PARTS_SHAPE, |given, reader| {
    let slid = |label: &str| Stage::LAYOUT.has(label).then_some("above [stage.parts]");
    parts(given, reader, &format!("the parts of {}", given.place), &slid)
});

/// `slid` says where a key of the table round them belongs.
fn parts(
    given: &Given<'_>,
    reader: &mut FileReader<'_>,
    place: &str,
    slid: &dyn Fn(&str) -> Option<&'static str>,
) -> Option<Vec<Part>> {
    let mut lines = Vec::new();
    for (label, value) in &given.table(reader)?.entries {
        let home = slid(&label.value).or_else(|| home(&label.value, &value.value, reader));
        if label.value.trim().is_empty() {
            let found = Diagnostic::error(Code::MissingKey, "a part has no name");
            reader.found.push(found.at(label.span, "the name of an ingredient was expected"));
        } else if let (Some(home), false) = (home, matches!(value.value, Value::Table(_))) {
            reader.found.push(misplaced(label, place, home));
        } else {
            lines.extend(line(&Given { key: label, value, ..*given }, reader));
        }
    }
    ratio::settle(&mut lines);
    ratio::check(reader, &lines);
    Some(lines.into_iter().map(|line| line.part).collect())
}

/// Where a key of the card belongs that slid under the heading of the parts; none for an ingredient.
fn home(label: &str, value: &Value, reader: &FileReader<'_>) -> Option<&'static str> {
    let is_amount = matches!(value, Value::Text(text) if literal::parse(text).is_ok());
    // sugar and water are ingredients too
    let is_ingredient = matches!(label, "sugar" | "acid" | "water") || (is_amount && !Card::LAYOUT.has(label));
    reader.hints.home(label).filter(|_| !is_ingredient)
}

/// What stands between the braces of a part.
#[derive(Default)]
struct PartTable {
    amount: Option<Spanned<Value>>,
    of: Option<Spanned<String>>,
    strained: Option<SaidOut>,
    holds: Option<Spanned<f64>>,
    food: Option<FoodStatement>,
    at_least: Option<Spanned<Value>>,
    at_most: Option<Spanned<Value>>,
    after: Option<Spanned<GoesInAfter>>,
    at: Option<Spanned<Temperature>>,
    abv: Option<f64>,
}

impl Laid for PartTable {
    const LAYOUT: &'static Layout<Self> = layout!(
        "a part",
        ["amount"],
        ("amount", AS_WRITTEN, "\"12 g\"", "how much", amount),
        ("at_least", AS_WRITTEN, "\"200 ml\"", "no less than this, where the amount is as needed", at_least),
        ("at_most", AS_WRITTEN, "\"300 ml\"", "no more than this, where the amount is as needed", at_most),
        ("of", OF, "\"water\"", "what it is, where the name of the line is not", of),
        ("strained", STRAINED, "true", "its solids are strained out again", strained),
        ("holds", WET, "1.2", "what one gram gains in the strainer, grams", holds),
        ("food", FOOD, "\"sold as food, label\"", "what states that it is food: what it is, and who says so", food),
        ("after", word::<GoesInAfter>(), "\"ice\"", "of a drink: what it goes in behind, as a float does", after),
        ("abv", ABV_KIND, "63", "of a bottle: the strength on its label, in percent by volume at 20 °C", abv),
        ("brix", OF_THE_LABEL, "", "", |_, _| {}),
        ("at", AT, "\"90 °C\"", "of a drink: how warm it is poured", at),
    );
}

/// Read under the name of the part.
const AS_WRITTEN: FieldKind<Value> = FieldKind::new(FieldShape::Text, |given, _| Some(given.value.value.clone()));

const OF: FieldKind<String> = FieldKind::new(FieldShape::Text, |given, reader| {
    let of = given.text(reader)?;
    if !of.trim().is_empty() {
        return Some(of.to_owned());
    }
    reader.refuse(
        Diagnostic::error(Code::MissingKey, "`of` names no ingredient")
            .at(given.value.span, "the name of an ingredient was expected")
            .help("write for example of = \"water\""),
    )
});

const WET: FieldKind<f64> = FieldKind::new(FieldShape::Number(*HOLDS.start(), *HOLDS.end()), |given, reader| {
    let holds = given.number(reader)?;
    let (least, most) = HOLDS.into_inner();
    if HOLDS.contains(&holds) {
        return Some(holds);
    }
    reader.refuse(given.out_of_range(
        format!("`holds` is {holds}; {least} to {most} was expected"),
        "what one gram gains in the strainer; below zero for pressed fruit, which comes out lighter",
        "weigh what you strain out: (wet weight out - weight in) / weight in; 12 g in and 26.4 g out is holds = 1.2",
    ))
});

fn line(given: &Given<'_>, reader: &mut FileReader<'_>) -> Option<PartLine> {
    let (label, value) = (given.key, given.value);
    let (table, written) = match &value.value {
        Value::Table(table) => {
            let part = PartTable::LAYOUT.read_at(table, &format!("the part `{}`", label.value), reader);
            let stays = matches!(part.strained, None | Some(SaidOut::Said(false)));
            if let (Some((key, _)), Some(_), true) = (table.get("holds"), part.holds, stays) {
                let title = format!("`holds` changes nothing: `{}` is not strained out", label.value);
                reader.found.push(
                    Diagnostic::warning(Code::Unused, title)
                        .at(key.span, "read only with strained = true")
                        .help("add strained = true, or delete `holds`"),
                );
            }
            let written = part.amount.clone();
            (part, written)
        }
        _ => (PartTable::default(), Some(value.clone())),
    };
    let Some(written) = written else {
        return reader.refuse(
            Diagnostic::error(Code::MissingKey, format!("`{}` has no amount", label.value))
                .at(value.span, "`amount` was expected in here")
                .help("write for example { amount = \"12 g\", strained = true }"),
        );
    };
    let (amount, basis, read) = amount(&Given { value: &written, ..*given }, reader)?;
    let mut bound = |written: &Option<Spanned<Value>>| {
        let value = written.as_ref()?;
        room::bound(amount, value, self::amount(&Given { value, ..*given }, reader)?.0, label, reader)
    };
    let bounds = PartBounds { at_least: bound(&table.at_least), at_most: bound(&table.at_most) };
    room::check_bounds(&bounds, label, reader);
    let part = Part {
        label: label.clone(),
        of: of_strength(table.of.unwrap_or_else(|| label.clone()), table.abv),
        amount: Spanned { value: amount, span: written.span },
        written: read,
        strained: table.strained.map(|strained| !matches!(strained, SaidOut::Said(false))),
        strained_is_assumed: matches!(table.strained, Some(SaidOut::Assumed)),
        holds: table.holds,
        food: table.food,
        bounds,
        after: table.after,
        at: table.at,
    };
    Some(PartLine { part, basis })
}

/// What a number alone says under a name of which the larder knows what one weighs.
enum Counts {
    /// `cloves = "20"`, `cinnamon stick = "1"`, `egg white = "1"`: it can only be how many.
    Pieces,
    /// `lime juice = "2"`: that of so many limes, or ounces.
    Perhaps,
}

/// More than this many of anything are weighed in a bar (common practice, no source).
const MOST_COUNTED: f64 = 100.0;

/// Whether a bare number under this name counts pieces.
fn counted_by_itself(name: &str) -> Option<Counts> {
    let larder = Larder::built_in();
    // of what a name may mean the likeliest stands first
    let likeliest = || larder::which_of(name).and_then(|which| larder.counted(which.first()?));
    let (known, portion) = larder.counted(name).or_else(likeliest)?;
    let comes_in_pieces = known.form == Form::Solid || known.kind == Some(Kind::Egg);
    // `lime zest = "8"`: that of eight limes, or grams.
    let is_taken = matches!(portion, Portion::Juice | Portion::Zest | Portion::Peel);
    Some(if comes_in_pieces && !is_taken { Counts::Pieces } else { Counts::Perhaps })
}

/// Words of a name by which a bare number counts.
const PIECES: [Portion; 11] = [
    Portion::Leaf,
    Portion::Bag,
    Portion::Stick,
    Portion::Pod,
    Portion::Clove,
    Portion::Sprig,
    Portion::Slice,
    Portion::Stalk,
    Portion::Twist,
    Portion::Wheel,
    Portion::Head,
];

/// So many of what the name says: leaves, bags, sticks. `None` where it says none of them.
fn pieces_by_name(name: &str, number: f64, reader: &FileReader<'_>) -> Option<Reading> {
    let is_piece = |word: &&str| Portion::parse(&fold(word)).is_some_and(|portion| PIECES.contains(&portion));
    let word = name.split_whitespace().find(is_piece).filter(|_| (1.0..=MOST_COUNTED).contains(&number))?;
    read_of(&format!("{number} {word}"), name, &reader.customs).ok().filter(|read| read.counted.is_some())
}

/// The amount, and the basis of a ratio if it is stated.
fn amount(given: &Given<'_>, reader: &mut FileReader<'_>) -> Option<(Amount, Option<Basis>, Reading)> {
    let key = &given.key.value;
    if !matches!(given.value.value, Value::Text(_) | Value::Number(_)) {
        return reader.refuse(given.wrong_type("an amount in quotes").help(FORMS));
    }
    let mut stated = None;
    // "4 sprigs, picked": how it is cut is no part of how much
    let is_sugar = || {
        let known = Larder::built_in().find(&given.key.value);
        known.is_some_and(|known| known.kind == Some(Kind::Sugar) && known.form == Form::Solid)
    };
    // how much a bottle of it holds is known once the thing is
    let customs = reader.customs;
    reader.customs = customs.with_a_bottle();
    let read = given.reading_of(reader, "an amount in quotes", |text| {
        let text = without_about(without_preparation(text).0);
        // "1 cup packed": a cup of brown sugar is weighed so
        text.strip_suffix(" packed").filter(|_| is_sugar()).unwrap_or(text)
    });
    reader.customs = customs;
    let mut read = read?;
    let literal = read.literal;
    let (amount, size) = match literal {
        Literal::Mass(mass) => (Amount::Mass(mass), in_grams(mass)),
        Literal::Volume(volume) => (Amount::Volume(volume), in_millilitres(volume)),
        Literal::Bottles(count, each) => (Amount::Volume(each * count), count * in_millilitres(each)),
        Literal::Pieces(pieces) => (Amount::Pieces(pieces), pieces),
        Literal::Parts(parts, basis) => {
            stated = basis;
            // without one it is reported with the whole ratio; the placeholder lets the other checks go on
            (Amount::Parts { parts, basis: basis.unwrap_or(Basis::Weight) }, parts)
        }
        Literal::Concentration(dose) => (Amount::Dose(dose), in_grams_per_litre(dose)),
        Literal::VolumeShare(share) => (Amount::VolumeDose(share), share),
        Literal::Percent(share) => (Amount::Share(share), share),
        Literal::AsNeeded => (Amount::AsNeeded, 0.0),
        Literal::All => (Amount::All, 0.0),
        Literal::Number(number) => match counted_by_itself(key) {
            // Five hundred under `raspberries` are grams, and nobody counts them.
            Some(Counts::Pieces) if number > MOST_COUNTED => {
                return reader.refuse(given.no_unit(number, &["g", "each"]));
            }
            Some(Counts::Pieces) => {
                let pieces = if number == 1.0 { "piece" } else { "pieces" };
                let title = format!("`{key}` = {number} is read as {number} {pieces}");
                reader.found.push(
                    Diagnostic::note(Code::Understood, title)
                        .at(given.value.span, "counted")
                        .help(format!("for another reading write the unit: \"{number} g\" or \"{number} ml\"")),
                );
                read.literal = Literal::Pieces(number);
                (Amount::Pieces(number), number)
            }
            Some(Counts::Perhaps) => return reader.refuse(given.no_unit(number, &["each"])),
            // "foglie di alloro" = "30", "tea bags" = "4"
            None if let Some(counted) = pieces_by_name(key, number, reader) => {
                read = counted;
                (Amount::Pieces(number), number)
            }
            None => return reader.refuse(given.no_unit(number, &["g", "ml"])),
        },
        Literal::Abv(_) | Literal::Proof(_) | Literal::Brix(_) | Literal::Temperature(_) | Literal::Time(_) => {
            return reader.refuse(given.wrong_dimension(&literal, "an amount", FORMS));
        }
    };
    if size < 0.0 {
        let title = format!("`{key}` is less than nothing");
        return reader.refuse(given.out_of_range(title, "an amount is never negative", "take away the minus sign"));
    }
    if size > 1.0 && matches!(amount, Amount::VolumeDose(_) | Amount::Share(_)) {
        return reader.refuse(given.out_of_range(
            format!("`{key}` is more than the whole: {} %", as_read(size * 100.0)),
            "100 % is all of the finished liquid",
            "write a smaller share, or a weight: \"750 g\"",
        ));
    }
    if size == 0.0 && matches!(amount, Amount::Parts { .. }) {
        let title = format!("`{key}` has no share in the ratio");
        return reader.refuse(given.out_of_range(title, "0 parts", "write how many parts, or delete the line"));
    }
    Some((amount, stated, read))
}

/// One measure of the product, or so many pieces of it.
pub(super) enum Sized<T> {
    Of(T),
    Pieces(f64),
}

/// Pieces of what is dried or cut; `12 glugs` are none.
fn pieces_of(read: &Reading) -> Option<f64> {
    let Literal::Pieces(count) = read.literal else { return None };
    let is_word = |word: &String| Portion::parse(word).is_some();
    let is_piece =
        read.counted.as_ref().is_none_or(|counted| counted.taken.is_none() && counted.words.iter().all(is_word));
    (count > 0.0 && is_piece).then_some(count)
}

/// "20 drinks": so many of what the card calls a serving.
fn servings_of(read: &Reading) -> Option<f64> {
    let (Literal::Pieces(count), Some(counted)) = (read.literal, &read.counted) else { return None };
    let is_drink = counted.taken.is_none() && counted.words.iter().any(|word| CountedDrink::parse(word).is_some());
    (count > 0.0 && is_drink).then_some(count)
}

fn counted<T>(given: &Given<'_>, reader: &FileReader<'_>, of: impl Fn(&Reading) -> Option<T>) -> Option<(T, Reading)> {
    let read = read_of(given.value.value.text()?, &given.key.value, &reader.customs).ok()?;
    of(&read).map(|count| (count, read))
}

/// How much a batch is, as it is written.
pub(super) enum BatchYield {
    Of(Makes),
    Pieces(f64),
    Servings(f64),
}

pub(super) const MAKES: FieldKind<(BatchYield, Reading)> = FieldKind::new(FieldShape::Text, |given, reader| {
    const EXPECTED: &str = "a volume, a weight, a count of bottles or of pieces";
    const HELP: &str = "write for example \"1.5 L\", \"2 kg\", \"6 x 250 ml\" or \"100 pieces\"";
    let of = |read: &Reading| {
        servings_of(read).map(BatchYield::Servings).or_else(|| pieces_of(read).map(BatchYield::Pieces))
    };
    let between = given.value.value.text().and_then(lesser);
    if between.is_none()
        && let Some(counted) = counted(given, reader, of)
    {
        return Some(counted);
    }
    if let Some(lesser) = &between {
        let taken = format!("a batch makes between two sizes: {lesser} is taken, the lesser");
        let note = Diagnostic::note(Code::Understood, taken).at(given.value.span, "what the amounts give counts");
        reader.found.push(note);
    }
    // "about 700 ml": what the amounts decide is no contradiction of it
    let read = given.reading_or(reader, EXPECTED, |text, customs| {
        let size = without_about(text);
        let reading =
            literal::read_by(between.as_deref().unwrap_or(size), customs).map_err(|e| e.within(text, size))?;
        Ok(Reading { text: text.to_owned(), ..reading })
    })?;
    let literal = read.literal;
    let (makes, size) = match literal {
        Literal::Volume(volume) => (Makes::Volume(volume), in_millilitres(volume)),
        Literal::Mass(mass) => (Makes::Mass(mass), in_grams(mass)),
        Literal::Bottles(count, each) => (Makes::Bottles { count, each }, count * in_millilitres(each)),
        Literal::Number(number) => return reader.refuse(given.no_unit(number, &["ml", "g"])),
        _ => return reader.refuse(given.wrong_dimension(&literal, EXPECTED, HELP)),
    };
    match size > 0.0 {
        true => Some((BatchYield::Of(makes), read)),
        false => reader.refuse(given.out_of_range("the card makes nothing", "more than 0 was expected", HELP)),
    }
});

pub(super) const SERVING: FieldKind<(Sized<Volume>, Reading)> = FieldKind::new(FieldShape::Text, |given, reader| {
    const HELP: &str = "write for example \"15 ml\", \"0.5 fl oz\" or, of what is counted, \"1 piece\"";
    if let Some((count, read)) = counted(given, reader, pieces_of) {
        return Some((Sized::Pieces(count), read));
    }
    // "1 spoon" of foam changes no weight
    let written = given.value.value.text().unwrap_or_default();
    if literal::read_by(written, &reader.customs).is_err_and(|e| e.code == Code::UnknownUnit && e.fix.is_none()) {
        let title = format!("how much a serving of `{}` is, is not known: none is counted", written.trim());
        return reader
            .refuse(Diagnostic::warning(Code::Understood, title).at(given.value.span, "how much?").help(HELP));
    }
    let read = given.reading(reader, "a volume")?;
    let literal = read.literal;
    reader.refuse(match literal {
        Literal::Volume(volume) if in_millilitres(volume) > 0.0 => return Some((Sized::Of(volume), read)),
        Literal::Volume(_) => given.out_of_range("a measure of nothing", "more than 0 was expected", HELP),
        Literal::Number(number) => given.no_unit(number, &["ml"]),
        _ => given.wrong_dimension(&literal, "a volume", HELP),
    })
});
