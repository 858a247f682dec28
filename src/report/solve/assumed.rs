//! What the numbers rest on besides the card.

use crate::assessment::allergens_by_line;
use crate::card::{Amount, Card, Part, Stage};
use crate::diagnostic::listed;
use crate::house::House;
use crate::larder::{Ingredient, Origin};
use crate::mixture::Component;
use crate::solver::evaporation;
use crate::solver::resolve::{Material, PieceWeight};
use crate::solver::{Solved, SolvedPart, SolvedStage};
use crate::spelling::fold;
use crate::units::display::{short, temperature_text};
use crate::units::{settled, taken};
use crate::vocabulary::Evidence;

pub(super) fn assumed(card: &Card, solved: &Solved, house: &House) -> Vec<String> {
    let written = || card.all_parts().map(|(_, part)| &part.written).chain(&card.sizes);
    // a fruit that is poured is another thing than its line says; then what the strength hangs on: the sheet has room for little
    let of_parts = || solved.stages.iter().flat_map(|s| &s.parts).zip(card.all_parts().map(|(_, part)| part));
    let is_poured = |of_card: &Part| matches!(of_card.amount.value, Amount::Volume(_));
    let poured = of_parts().filter(|(part, of_card)| part.mass_g > 0.0 && is_poured(of_card));
    let left_out =
        || of_parts().filter(|(_, of_card)| of_card.strained_is_assumed).map(|(part, _)| part.label.as_str());
    let mut all: Vec<String> = poured.filter_map(|(part, of_card)| read_as(part, of_card)).collect();
    all.extend(spirits(solved));
    all.extend(left_out().next().map(|_| {
        let called = listed(left_out());
        format!(
            "{called} strained out before bottling, dated no later than with it in: strained = true or false says which"
        )
    }));
    all.extend(of_the_house(solved, house));
    all.extend(sugar_taken(solved));
    all.extend(by_label(solved));
    all.extend(bottles(solved));
    all.extend(taken(written()).into_iter().chain(settled(written())));
    for (part, of_card) in of_parts() {
        if part.mass_g == 0.0 {
            continue;
        }
        all.extend(read_as(part, of_card).filter(|_| !is_poured(of_card)));
        all.extend(part.found.piece.as_ref().map(|piece| one_piece(&part.label, piece)));
        if let (None, Material::Ingredient(ingredient)) = (taken_as(part), &part.found.what) {
            all.extend(one_of_several(&part.of, ingredient, house));
        }
        let stays = part.feed.per_gram.grams_of_all(&Component::UNDISSOLVED) * part.mass_g;
        let is_unsaid = !card.is_drink() && is_left_in_unsaid(part, of_card);
        let is_left_in = stays > 0.01 * solved.bottled().total_grams() || is_unsaid;
        if part.feed.holds.is_none() && is_left_in && !solved.is_dry() {
            all.push(format!(
                "{} stays in the product with its solids: strained = true if it is strained out",
                part.label
            ));
        }
        if let (Some(holds), None) = (part.feed.holds, of_card.holds) {
            let status = match &part.found.what {
                Material::Ingredient(i) => i.holds_status.clone().unwrap_or_default(),
                _ => String::new(),
            };
            let weight = match holds {
                // short in front of the bracket: that is all that the sheet has room for
                0.0.. => format!("keeps {holds:.1} g a gram (of liquid; {status})"),
                _ => format!("comes out as {:.0} g of each 100 g ({status})", 100.0 * (1.0 + holds)),
            };
            all.push(format!("strained {} {weight}", part.label));
        }
    }
    // what the steps tell of a wait, and its key does not
    let waits = card.all_stages().zip(solved.card.all_stages()).filter(|(written, _)| written.at.is_none());
    all.extend(waits.filter_map(|(_, told)| {
        let (takes, at) = (told.takes.as_ref()?, told.at?);
        Some(format!("stands at {} for {}: a step says so", temperature_text(at), takes.written))
    }));
    if card.all_stages().any(|stage| evaporation::is_under_a_lid(card, stage)) {
        all.push("a pan with its lid on loses next to none of its water (common practice, no source)".to_owned());
    }
    let states_loss = |s: &Stage| {
        s.loss.evaporated.is_some() || s.loss.evaporated_as_needed.is_some() || s.loss.left_behind.is_some()
    };
    let hot = card.all_stages().find_map(|stage| evaporation::unstated(card, stage));
    if let Some(hot) = hot {
        all.push(format!("nothing goes up {}: it may be {}", hot.during(), hot.most_said()));
    } else if card.all_stages().any(|stage| stage.heated.is_some()) && !card.all_stages().any(states_loss) {
        all.push("nothing is lost on the way: the card states no [loss]".to_owned());
    }
    let spirit_heated =
        |s: &SolvedStage| s.course.evaporated_g > 0.0 && s.course.combined.grams_of(Component::Ethanol) > 0.0;
    if solved.stages.iter().any(spirit_heated) {
        all.push("only water goes up: spirit that is heated loses its alcohol first".to_owned());
    }
    if house.settings.instruments.scale_assumed {
        all.push("a 1 g kitchen scale up to 5 kg: no house.toml states another".to_owned());
    }
    all.extend(allergens(solved));
    all
}

/// Whole spices, bark, peel, leaves of tea: nobody bottles them, and the card says neither that they stay in nor that they do not.
fn is_left_in_unsaid(part: &SolvedPart, of_card: &Part) -> bool {
    let Material::Ingredient(ingredient) = &part.found.what else { return false };
    of_card.strained.is_none() && ingredient.strained.is_some_and(|strained| strained.is_never_bottled)
}

/// Parts of whose carbohydrate no record tells how much is sugar (marmalade, jam, malt): what is taken, or that none is.
fn sugar_taken(solved: &Solved) -> impl Iterator<Item = String> {
    let parts = solved.stages.iter().flat_map(|stage| &stage.parts).filter(|part| part.mass_g > 0.0);
    parts.filter_map(|part| {
        let Material::Ingredient(ingredient) = &part.found.what else { return None };
        let of = &part.label;
        match ingredient.sugar_range {
            Some(range) => {
                let (low, high) = (short(100.0 * range.low), short(100.0 * range.high));
                Some(format!(
                    "the sugar of {of} is taken as {low} to {high} g in 100 g: its label overrides it, in larder.toml"
                ))
            }
            None => ingredient.status.is_split_unknown.then(|| {
                format!("the sugar of {of} is not counted (how much it is nobody knows; state it by its label)")
            }),
        }
    })
}

/// The name under which the larder has a bottle of which it picked the strength or the sugar.
fn taken_as(part: &SolvedPart) -> Option<&str> {
    match &part.found.what {
        Material::Ingredient(i) if i.origin == Origin::BuiltIn && is_one_of_its_kind(i) => Some(i.name.as_str()),
        _ => None,
    }
    .filter(|name| !name.eq_ignore_ascii_case(&part.of))
}

/// "Lemon is read as lemon juice."
fn read_as(part: &SolvedPart, of_card: &Part) -> Option<String> {
    let called = part.found.called.as_ref().filter(|called| fold(called) != fold(&of_card.of.value))?;
    Some(format!("{} is read as {called}", of_card.of.value))
}

/// Those that were picked, the one with the most alcohol in it first.
fn spirits(solved: &Solved) -> Vec<String> {
    let parts = solved.stages.iter().flat_map(|stage| &stage.parts).filter(|part| part.mass_g > 0.0);
    let mut parts: Vec<&SolvedPart> = parts.collect();
    let alcohol_g = |part: &SolvedPart| part.mass_g * part.feed.per_gram.grams_of(Component::Ethanol);
    parts.sort_by(|one, other| alcohol_g(other).total_cmp(&alcohol_g(one)));
    let said = |part: &SolvedPart| {
        Some(format!("{} is taken as {}: your label overrides it, in larder.toml", part.of, taken_as(part)?))
    };
    parts.into_iter().filter_map(said).collect()
}

/// "Allergens: sulphites from red wine, milk from cream": by what is stated of each line, and by its name.
fn allergens(solved: &Solved) -> Option<String> {
    let by_line = allergens_by_line(solved).into_iter();
    let said: Vec<String> =
        by_line.map(|(allergen, lines)| format!("{allergen} from {}", lines.join(" and "))).collect();
    (!said.is_empty()).then(|| format!("allergens: {}", said.join(", ")))
}

/// What a bottle of each line holds that counts bottles: "1 bottle of dry white wine: 750 ml each".
fn bottles(solved: &Solved) -> Option<String> {
    let parts = solved.stages.iter().flat_map(|stage| &stage.parts);
    let read = parts.filter_map(|part| Some((part, part.found.bottle?, part.written.as_ref()?)));
    let read: Vec<String> = read
        .map(|(part, of, written)| format!("{} of {}: {} ml each", written.text.trim(), part.label, short(of.ml)))
        .collect();
    (!read.is_empty()).then(|| read.join(", "))
}

/// The ounces that are those of a label, though the thing is poured: "14 oz of condensed milk is by weight, as its can says".
fn by_label(solved: &Solved) -> Option<String> {
    let parts = solved.stages.iter().flat_map(|stage| &stage.parts);
    let read = parts.filter_map(|part| {
        let written = part.written.as_ref().filter(|written| part.found.is_by_label(written))?;
        Some(format!("{} of {}", written.text.trim(), part.label))
    });
    let read: Vec<String> = read.collect();
    (!read.is_empty()).then(|| format!("{}: by weight, as the can says", read.join(", ")))
}

/// Parts whose name the house has for nothing, and that were taken as what it has of the same thing.
fn of_the_house(solved: &Solved, house: &House) -> impl Iterator<Item = String> {
    let parts = solved.stages.iter().flat_map(|stage| &stage.parts).filter(|part| part.mass_g > 0.0);
    parts.filter_map(|part| {
        let Material::Ingredient(ingredient) = &part.found.what else { return None };
        house.larder.is_taken_as(&part.of, ingredient).then(|| {
            format!(
                "{} is taken as {}, which larder.toml has: if it is another, say so there",
                part.of, ingredient.name
            )
        })
    })
}

/// Whether its strength or its sugar is one that was picked of many: that of a spirit, and what is computed from the
/// figures in a name.
fn is_one_of_its_kind(ingredient: &Ingredient) -> bool {
    ingredient.per_gram.grams_of(Component::Ethanol) > 0.0 || ingredient.status.evidence == Evidence::Computed
}

/// What one of what a line counts was taken to weigh.
fn one_piece(label: &str, piece: &PieceWeight) -> String {
    let range = piece.range_g.map(|(low, high)| format!("{} to {} g; ", short(low), short(high))).unwrap_or_default();
    format!("{label}: one is taken as {} g ({range}{})", short(piece.each_g), piece.status)
}

/// From this on, grams in a gram, another composition changes what the sheet says: all white sugars are one (ours).
const ANOTHER: f64 = 0.02;

fn is_another(one: &Ingredient, other: &Ingredient) -> bool {
    Component::ALL.iter().any(|&c| (one.per_gram.grams_of(c) - other.per_gram.grams_of(c)).abs() > ANOTHER)
}

/// Which of several ingredients a name was taken for, where the larder has more of that name. A house that has its own
/// knows what it means.
fn one_of_several(written: &str, ingredient: &Ingredient, house: &House) -> Option<String> {
    const MOST: usize = 3;
    if ingredient.origin != Origin::BuiltIn {
        return None;
    }
    let others = house.larder.others_called(written).filter(|other| is_another(ingredient, other));
    let others: Vec<&str> = others.map(|i| i.name.as_str()).take(MOST).collect();
    let name = &ingredient.name;
    (!others.is_empty())
        .then(|| format!("{written} is taken as {name}: if it is another, name it ({})", others.join(", ")))
}
