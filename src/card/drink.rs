//! What makes a card a drink: how it is made, the ice that it meets, what it is served in. Its parts are those of one glass.

use crate::diagnostic::{Code, Diagnostic, Span};
use crate::input::{FieldKind, FieldShape, FileReader, Laid, Layout, Table, layout, word};
use crate::larder::Larder;
use crate::units::display::as_read;
use crate::units::{Literal, Mass, NumberRange, degrees_celsius, in_grams};
use crate::vocabulary::{DrinkHow, IceKind};

use super::model::{Amount, Card, Drink, Ice};
use super::treatment::AT;

impl Laid for Ice {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[ice]",
        "under [ice]",
        ("grams", WEIGHED, "\"200 g\"", "how much ice, the water on it counted", grams),
        ("kind", word::<IceKind>(), "\"cubes\"", "what it is broken or cast to", kind),
        ("at", AT, "\"-18 °C\"", "how cold it is; wet ice from a bin is at 0 °C", at),
        ("before", WEIGHED, "\"95 g\"", "what the drink weighed before it met the ice", before),
        ("after", WEIGHED, "\"127 g\"", "what it weighed strained", after),
    );
}

impl Drink {
    /// What it gained from its ice by weighing, grams: as the card says, or after less before.
    pub(crate) fn weighed_g(&self) -> Option<f64> {
        let ice = self.ice.as_ref();
        let difference = || {
            let (before, after) = (ice?.before?, ice?.after?);
            Some(in_grams(after.value) - in_grams(before.value))
        };
        self.water.map(|water| in_grams(water.value)).or_else(difference)
    }
}

/// More is not in one glass, nor in its tin (ours).
const ONE_DRINK_G: NumberRange = NumberRange::all(0.0, 5000.0, "g for one drink");

/// A weight of one drink, or of its ice.
pub(super) const WEIGHED: FieldKind<Mass> = FieldKind::new(FieldShape::Text, |given, reader| {
    const HELP: &str = "weigh it, and write for example \"32 g\"";
    let literal = given.literal(reader, "a weight")?;
    reader.refuse(match literal {
        Literal::Mass(mass) if ONE_DRINK_G.holds(in_grams(mass)) => return Some(mass),
        Literal::Mass(mass) => given.out_of_range(
            format!("`{}` is {} g", given.key.value, as_read(in_grams(mass))),
            &ONE_DRINK_G.expected(),
            HELP,
        ),
        Literal::Number(number) => given.no_unit(number, &["g"]),
        _ => given.wrong_dimension(&literal, "a weight", HELP),
    })
});

/// The keys that only a drink has.
const OF_A_DRINK: [&str; 4] = ["ice", "water", "glass", "garnish"];

fn against(title: impl Into<String>, at: Span, why: &str, help: impl Into<String>) -> Diagnostic {
    Diagnostic::error(Code::DrinkRule, title).at(at, why).help(help)
}

/// A drink has amounts for one glass; what is no drink has no ice.
pub(super) fn check(card: &Card, table: &Table, reader: &mut FileReader<'_>) {
    let is_written = table.get("how").is_some() || reader.is_renamed("how");
    match (&card.drink.how, OF_A_DRINK.iter().find_map(|key| table.get(key))) {
        (Some(how), _) => reader.found.extend(of_drink(card, how.value)),
        (None, Some((key, _))) if !is_written => reader.found.push(
            Diagnostic::error(
                Code::MissingKey,
                format!("`{}` is of a drink, and nothing says how it is made", key.value),
            )
            .at(key.span, "a drink says `how`")
            .help("write above the first heading how = \"shaken\", \"stirred\" or \"built\"; or delete the line"),
        ),
        _ => {}
    }
    let behind_ice = card.all_parts().filter(|(stage, _)| stage.name.is_some() || !card.is_drink());
    let behind_ice = behind_ice.filter_map(|(_, part)| part.after).filter(|_| !is_written || card.is_drink());
    reader.found.extend(behind_ice.map(|after| {
        let help = "delete `after`; or write above the first heading how = \"shaken\", and the part under [parts]";
        against("what is no drink in the glass meets no ice", after.span, "only under [parts] of a drink", help)
    }));
    let warm = card.all_parts().filter(|(stage, _)| stage.name.is_some() || !card.is_drink());
    let warm = warm.filter_map(|(_, part)| part.at).filter(|_| !is_written || card.is_drink());
    reader.found.extend(warm.map(|at| {
        let help = "delete `at` here; how warm a stage stands is written above its parts: at = \"4 °C\"";
        against("only a drink is asked how warm its parts are poured", at.span, "only under [parts] of a drink", help)
    }));
    let at = table.get("ice").map_or_else(Span::default, |(key, _)| key.span);
    reader.found.extend(card.drink.ice.as_ref().and_then(cannot_be).map(|said| said.at(at, "this ice")));
}

/// Ice that is none.
fn cannot_be(ice: &Ice) -> Option<Diagnostic> {
    let (grams, at) = (ice.grams.map(in_grams), ice.at.map(degrees_celsius));
    let said = |title: String, help: &str| Some(Diagnostic::error(Code::OutOfRange, title).help(help));
    match (grams, at) {
        (_, Some(c)) if c > 0.0 => said(
            format!("ice of {} °C is water", as_read(c)),
            "write how cold it is: at = \"-18 °C\"; wet ice is at 0 °C",
        ),
        (Some(g), _) if g <= 0.0 => said("0 g of ice is none".to_owned(), "weigh it; a drink without ice has no [ice]"),
        _ => None,
    }
}

fn of_drink(card: &Card, how: DrinkHow) -> Vec<Diagnostic> {
    const ONE_GLASS: &str = "write the amounts of one glass: \"50 ml\", \"1 dash\", \"2 sprays\", \"1 each\"";
    let mut found = Vec::new();
    found.extend(card.makes.as_ref().map(|makes| {
        let help = "delete the line; for a batch of it: stillroom serve DRINK --make 40";
        against("a drink makes one glass, and the card says how much it makes", makes.span, "not on a drink", help)
    }));
    found.extend(card.targets.first().map(|target| {
        let help =
            "delete [target]: what a glass of it is, `stillroom serve` says; to aim at a strength, change the parts";
        against("a drink is poured, not solved for", target.span, "not on a drink", help)
    }));
    let parts = &card.last.parts;
    for part in parts {
        if !matches!(part.amount.value, Amount::Mass(_) | Amount::Volume(_) | Amount::Pieces(_)) {
            let title = format!("how much `{}` goes into one glass is not said", part.label.value);
            found.push(against(title, part.amount.span, "a drink is poured", ONE_GLASS));
        }
    }
    let is_ice = |name: &str| Larder::built_in().find(name).is_some_and(|known| known.id == ICE);
    let ice: Vec<_> = parts.iter().filter(|part| is_ice(&part.of.value)).collect();
    if let Some(first) = ice.first() {
        let title = match ice.len() == parts.len() {
            true => "the drink is only ice",
            false => "ice is no part of a drink: how much of it melts is found",
        };
        let help = "write it as [ice] grams = \"200 g\", and under [parts] what is poured over it";
        found.push(against(title, first.label.span, "ice", help));
    }
    found.extend(card.serving.as_ref().map(|serving| {
        Diagnostic::warning(Code::Unused, "the serving of a drink is its glass")
            .at(serving.span, "changes nothing here")
            .help("delete the line")
    }));
    found.extend(weighings(card, how));
    found
}

/// What the larder calls ice.
pub(crate) const ICE: &str = "ice";

fn weighings(card: &Card, how: DrinkHow) -> Option<Diagnostic> {
    let drink = &card.drink;
    let ice = drink.ice.as_ref()?;
    let gained = drink.water.map(|water| (in_grams(water.value), water.span));
    let gained = gained.or_else(|| Some((drink.weighed_g()?, ice.after?.span)));
    if let Some(((gained, at), all)) = gained.zip(ice.grams.map(in_grams)).filter(|((gained, _), all)| gained > all) {
        let title = format!("{} g of water came from {} g of ice", as_read(gained), as_read(all));
        return Some(
            Diagnostic::error(Code::OutOfRange, title)
                .at(at, "more than there was")
                .help("weigh the ice of one drink, the water on it counted, and what the drink gained from it"),
        );
    }
    match (ice.before, ice.after) {
        (Some(before), Some(_)) if drink.water.is_some() => Some(
            Diagnostic::error(Code::Contradiction, "what the drink gained from its ice is said twice")
                .at(before.span, "by two weighings")
                .at(drink.water.map_or_else(Span::default, |water| water.span), "as it is")
                .help("delete one of them"),
        ),
        (Some(before), Some(after)) if in_grams(after.value) < in_grams(before.value) => Some(
            Diagnostic::error(Code::OutOfRange, "the drink weighs less after the ice than before it")
                .at(after.span, "after")
                .at(before.span, "before")
                .help("weigh both with the same tin, tared: what it gained is after less before"),
        ),
        (Some(one), None) | (None, Some(one)) => Some(
            Diagnostic::error(Code::MissingKey, "one weighing does not tell what the ice gave")
                .at(one.span, "before or after, and not the other")
                .help(
                    "write both, [ice] before = \"95 g\" and after = \"127 g\"; or water = \"32 g\" above the headings",
                ),
        ),
        (None, None) if how == DrinkHow::Blended && ice.grams.is_none() && drink.water.is_none() => Some(
            Diagnostic::warning(Code::Assumed, "how much ice is blended in is not said, and all of it is drunk")
                .at(drink.how.as_ref().map_or_else(Span::default, |how| how.span), "blended")
                .help("weigh the ice of one drink: [ice] grams = \"150 g\""),
        ),
        _ => None,
    }
}
