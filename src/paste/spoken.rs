//! A card as plain text, such as people send each other, that [`super::paste`] reads back to the same card.

use crate::card::{self, Card, Part, Stage};
use crate::diagnostic::Span;
use crate::house::House;
use crate::units::degrees_celsius;
use crate::vocabulary::Word;

use super::clean::PastedLine;
use super::keys::{COMPLETE, PlainKey, said};
use super::names::Names;
use super::part::{PartSaid, part};
use super::read::is_title;

/// What of a card the text does not give back, as it stands on the card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unsaid(pub String);

/// The card as text, and what is lost in it: nothing, but for names and notes that no line can hold.
pub fn text(card: &Card, house: &House) -> (String, Vec<Unsaid>) {
    let text = spoken(card, Names::of(house, ""));
    let (back, _) = card::read_by("".into(), super::paste(&text, house).card.into(), &house.customs());
    let back = back.map_or_else(Vec::new, |back| facts(&back));
    let lost = facts(card).into_iter().filter(|fact| !back.iter().any(|read| read.exact == fact.exact));
    let lost = lost.map(|fact| Unsaid(fact.shown)).collect();
    (text, lost)
}

fn spoken(card: &Card, names: Names<'_>) -> String {
    let mut lines = Vec::new();
    let name = PastedLine { text: one_line(&card.name.value), numbered: false, heading: false };
    let mark = if is_title(&name, names) { "" } else { "# " };
    lines.push(format!("{mark}{}", name.text));
    let mut put = |key, value: Option<String>| lines.extend(value.map(|value| said(key, &one_line(&value))));
    let raw = |span: Span| Some(raw(card, span));
    put(PlainKey::Makes, card.makes.and_then(|makes| raw(makes.span)));
    put(PlainKey::Class, card.class.as_ref().and_then(|class| raw(class.span)));
    let process: Vec<_> = card.process.iter().map(|process| process.word()).collect();
    put(PlainKey::Process, (!process.is_empty()).then(|| process.join(", ")));
    put(PlainKey::Serving, card.serving.and_then(|serving| raw(serving.span)));
    put(PlainKey::Labour, card.labour.and_then(|labour| raw(labour.span)));
    put(PlainKey::Source, card.source.clone());
    put(PlainKey::Notes, card.notes.clone());
    for target in &card.targets {
        put(PlainKey::Target, Some(figure(target.kind.key(), &self::raw(card, target.span))));
    }
    put(PlainKey::Pours, card.pours.clone());
    put(PlainKey::ForAGuest, card.for_a_guest.clone());
    put(PlainKey::Measured, measured(card));
    put(PlainKey::Keep, keep(card));
    for stage in &card.stages {
        lines.push(String::new());
        lines.push(format!("For the {}:", stage.name.as_ref().map_or("", |name| name.value.as_str())));
        of_stage(card, stage, names, &mut lines);
        lines.extend(stage.steps.iter().map(|step| said(PlainKey::Step, &one_line(step))));
    }
    lines.push(String::new());
    lines.push(if card.stages.is_empty() { "Ingredients:" } else { "To finish:" }.to_owned());
    of_stage(card, &card.last, names, &mut lines);
    lines.push(said(PlainKey::FromACard, COMPLETE));
    if !card.steps.is_empty() {
        lines.push(String::new());
        lines.push("Method:".to_owned());
        lines.extend(card.steps.iter().enumerate().map(|(n, step)| format!("{}. {}", n + 1, one_line(step))));
    }
    lines.join("\n") + "\n"
}

fn of_stage(card: &Card, stage: &Stage, names: Names<'_>, lines: &mut Vec<String>) {
    lines.extend(stage.parts.iter().map(|part| part_line(part, names)));
    let mut put = |key, value: Option<String>| lines.extend(value.map(|value| said(key, &value)));
    put(PlainKey::Heated, stage.heated.map(|heated| heated.span).or(stage.not_heated).map(|span| raw(card, span)));
    put(PlainKey::Takes, stage.takes.as_ref().map(|takes| takes.written.clone()));
    // what the reading of a temperature adds to its last digits is no temperature
    let degrees = |c: f64| format!("{} °C", (c * 1e6).round() / 1e6);
    put(PlainKey::At, stage.at.map(|at| degrees(degrees_celsius(at))));
    put(PlainKey::Washed, stage.washed.map(|washed| washed.word().to_owned()));
    let share = |share: &str, what: &str| format!("{share} {what}");
    put(PlainKey::Loss, stage.loss.evaporated.map(|lost| share(&raw(card, lost.span), "evaporated")));
    put(PlainKey::Loss, stage.loss.evaporated_as_needed.map(|_| "as needed evaporated".to_owned()));
    put(PlainKey::Loss, stage.loss.left_behind.map(|lost| share(&raw(card, lost.span), "left behind")));
}

/// "64 °Bx" rather than "brix 64".
fn figure(key: &str, value: &str) -> String {
    match (key, value.parse::<f64>()) {
        ("brix", Ok(_)) => format!("{value} °Bx"),
        ("abv", Ok(_)) => format!("{value} % ABV"),
        ("ph", _) => format!("pH {value}"),
        _ => format!("{key} {value}"),
    }
}

fn measured(card: &Card) -> Option<String> {
    let read = &card.measured;
    let figures = [("ph", read.ph), ("brix", read.brix), ("abv", read.abv), ("acid", read.acid)];
    let mut all: Vec<String> =
        figures.into_iter().filter_map(|(key, value)| Some(figure(key, &raw(card, value?.span)))).collect();
    all.extend(read.ph_by.map(|by| format!("by {}", by.word())));
    all.extend(read.calibrated.then(|| "calibrated".to_owned()));
    all.extend(read.on.map(|day| format!("on {}", day.value)));
    (!all.is_empty()).then(|| all.join("; "))
}

/// A share as it was written, without what its reading adds to the last digits.
fn more_water(share: f64) -> String {
    format!("more water {} %", (share * 1e8).round() / 1e6)
}

fn keep(card: &Card) -> Option<String> {
    let keep = &card.keep;
    let flag = |on: Option<bool>, word: &str| on.map(|on| if on { word.to_owned() } else { format!("not {word}") });
    let filled = keep.hot_filled.map(|hot| format!("filled {}", if hot { "hot" } else { "cold" }));
    let container = keep.container.as_ref().map(|container| format!("in {}", container.value.word()));
    let store = keep.store.as_ref().map(|store| format!("store {}", store.value));
    let all = [
        filled,
        flag(keep.closed, "closed"),
        container,
        flag(keep.for_sale, "for sale"),
        flag(keep.opened, "opened"),
        store,
        keep.more_water.map(more_water),
    ];
    let all: Vec<String> = all.into_iter().flatten().collect();
    (!all.is_empty()).then(|| all.join("; "))
}

/// Whether a maker says that it is strained out: what is only taken so is taken so again by who reads the text.
fn is_told_out(of: &Part) -> bool {
    of.is_strained() && !of.strained_is_assumed
}

/// The first spelling of a part that is read back as it is.
fn part_line(of: &Part, names: Names<'_>) -> String {
    let (label, amount) = (&of.label.value, of.written.text.trim());
    let mut said: Vec<String> = Vec::new();
    said.extend(is_told_out(of).then(|| "strained out".to_owned()));
    said.extend(of.holds.map(|holds| format!("holds {}", holds.value)));
    let brackets = |said: &[String]| {
        let said = (!said.is_empty()).then(|| format!(" ({})", said.join("; ")));
        let food = of.food.as_ref().map(|food| format!(" (food: {food})"));
        format!("{}{}", said.unwrap_or_default(), food.unwrap_or_default())
    };
    let plain = brackets(&said);
    let mut with_of = said.clone();
    if of.of.value != *label {
        with_of.insert(0, format!("of \"{}\"", of.of.value));
    }
    let full = brackets(&with_of);
    let mut short = [format!("{amount} {label}{plain}"), format!("{label}: {amount}{plain}")];
    if amount == "as needed" {
        short.reverse();
    }
    let [first, second] = short;
    let spellings = [first, second, format!("{amount} {label}{full}"), format!("{label}: {amount}{full}")];
    let is_read = |line: &String| match part(line, names) {
        PartSaid::Part(read) => {
            read.amount.as_deref() == Some(amount)
                && read.label == *label
                && read.of() == of.of.value
                && (read.strained == Some(true)) == is_told_out(of)
        }
        _ => false,
    };
    spellings.into_iter().find(is_read).unwrap_or_else(|| format!("\"{label}\": {amount}{full}"))
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What stands in the text of the card, without its quotes.
fn raw(card: &Card, span: Span) -> String {
    let written = card.text.get(span.start..span.end).unwrap_or_default().trim();
    let unquoted = |mark: char| written.strip_prefix(mark).and_then(|rest| rest.strip_suffix(mark));
    unquoted('"').or(unquoted('\'')).unwrap_or(written).to_owned()
}

/// Something that a card says: as people read it, and to the last digit, which is compared.
struct CardFact {
    shown: String,
    exact: String,
}

impl CardFact {
    fn plain(said: String) -> Self {
        Self { shown: said.clone(), exact: said }
    }
}

/// Everything that a card says, a line each, without its places: two cards with the same lines are the same.
fn facts(card: &Card) -> Vec<CardFact> {
    let mut all = vec![CardFact::plain(format!("name {}", one_line(&card.name.value)))];
    let mut put = |key: &str, value: Option<String>| {
        all.extend(value.map(|value| CardFact::plain(format!("{key} {value}"))));
    };
    put("class", card.class.as_ref().map(|class| class.value.to_string()));
    let process: Vec<&str> = card.process.iter().map(|process| process.word()).collect();
    put("process", (!process.is_empty()).then(|| process.join(", ")));
    // A pasted recipe has no room: what the text cannot give back is said.
    for range in &card.ranges {
        put("target", Some(figure(range.kind.key(), &raw(card, range.span))));
    }
    put("aim", card.aim.map(|aim| aim.value.words()));
    for part in &card.last.parts {
        for (key, bound) in [("at least", part.bounds.at_least), ("at most", part.bounds.at_most)] {
            put(&part.label.value, bound.map(|bound| format!("{key} {}", raw(card, bound.span))));
        }
    }
    put("source", card.source.as_deref().map(one_line));
    put("notes", card.notes.as_deref().map(one_line));
    put("pours", card.pours.as_deref().map(one_line));
    put("for a guest:", card.for_a_guest.as_deref().map(one_line));
    put("keep:", card.keep.more_water.map(more_water));
    put("made as a drink:", card.drink.how.as_ref().map(|how| how.value.to_string()));
    put("with ice:", card.drink.weighed_g().map(|g| format!("{g} g of water from it")));
    put("in", card.drink.glass.clone());
    put("garnish", card.drink.garnish.clone());
    let read = &card.measured;
    for (key, value) in [("pH", read.ph), ("brix", read.brix), ("abv", read.abv), ("acid", read.acid)] {
        put("measured", value.map(|value| format!("{key} {}", value.value)));
    }
    put("measured on", read.on.map(|day| day.value.to_string()));
    let keep = &card.keep;
    put("keep in", keep.container.as_ref().map(|container| container.value.to_string()));
    put("store", keep.store.as_ref().map(|store| store.value.clone()));
    put("steps", Some(card.steps.iter().map(|step| one_line(step)).collect::<Vec<_>>().join("\n")));
    let mut exactly = |shown: String, exact: String| all.push(CardFact { shown, exact });
    let written = |span: Span| raw(card, span);
    if let Some(makes) = card.makes {
        exactly(format!("makes {}", written(makes.span)), format!("makes {:?}", makes.value));
    }
    if let Some(serving) = card.serving {
        exactly(format!("serving {}", written(serving.span)), format!("serving {:?}", serving.value));
    }
    if let Some(labour) = card.labour {
        exactly(format!("labour {}", written(labour.span)), format!("labour {:?}", labour.value));
    }
    for target in &card.targets {
        let shown = figure(target.kind.key(), &written(target.span));
        exactly(format!("target {shown}"), format!("target {:?} {}", target.kind, target.value));
    }
    exactly("how the readings were taken".to_owned(), format!("{:?} {}", read.ph_by, read.calibrated));
    let kept = format!("{:?} {:?} {:?} {:?}", keep.hot_filled, keep.closed, keep.for_sale, keep.opened);
    exactly("how it is filled and closed".to_owned(), kept);
    for stage in card.all_stages() {
        let name = stage.name.as_ref().map_or("", |name| name.value.as_str());
        let of = if name.is_empty() { String::new() } else { format!(" of {name}") };
        for part in &stage.parts {
            let holds = part.holds.map(|holds| holds.value);
            let (label, is, amount) = (&part.label.value, &part.of.value, part.amount.value);
            exactly(
                format!("{label}: {}", part.written.text.trim()),
                format!(
                    "{name}: {label} of {is} {amount:?} strained {} holds {holds:?} {:?}",
                    part.is_strained(),
                    part.food
                ),
            );
        }
        let lost = |lost: Option<crate::diagnostic::Spanned<f64>>| lost.map(|lost| lost.value);
        let (steam, left) = (lost(stage.loss.evaporated), lost(stage.loss.left_behind));
        let lost = format!("{name}: loss {steam:?} {} {left:?}", stage.loss.evaporated_as_needed.is_some());
        exactly(format!("what is lost{of}"), lost);
        let takes = stage.takes.as_ref().map(|takes| takes.time);
        let at = stage.at.map(|at| (degrees_celsius(at) * 1e6).round());
        let heated = stage.heated.map(|heated| heated.value);
        exactly(
            format!("heat, time and washing{of}"),
            format!("{name}: {heated:?} {} {takes:?} {at:?} {:?}", stage.not_heated.is_some(), stage.washed),
        );
        let steps = if stage.name.is_some() { stage.steps.as_slice() } else { &[] };
        exactly(format!("steps{of}"), format!("{name}: {steps:?}"));
    }
    all
}
