//! Plants that lie where no air gets at them: under an oil or a fat, or wet in a honey or a thick syrup. Spores of botulism need
//! no more, and it is what a thing is that counts, not what it is called.

use std::collections::HashSet;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::larder::{Form, Ingredient, Larder, Origin};
use crate::mixture::Component;
use crate::safety::alcohol_bands::PATHOGENS_STOP_ABV;
use crate::safety::foods;
use crate::safety::{Fact, Facts, Member, Tcs};
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart};
use crate::spelling::{fold, name_words};
use crate::units::degrees_celsius;
use crate::vocabulary::{Kind, Tag, table};

/// Grams of fat in a gram of what is an oil, a fat or a butter: more than in any cream, nut paste or chocolate (ours).
const FAT: f64 = 0.5;
/// Grams of water in a gram up to which a plant is dry: dates, raisins and vanilla have less, and a water activity at which no
/// spore grows (0.93 is asked for; from memory).
const DRY: f64 = 0.35;
/// From here up what lies in a syrup was cooked in it, °C (ours).
const COOKED_C: f64 = 85.0;

#[derive(Deserialize)]
struct DryRow {
    word: String,
}

/// Words that say of a plant that it is dry, folded.
static DRY_WORDS: LazyLock<HashSet<String>> = LazyLock::new(|| {
    let rows: Vec<DryRow> = table::rows("dry-words.csv", include_str!("dry-words.csv"));
    rows.iter().map(|row| fold(&row.word)).collect()
});

/// How wet a plant is.
#[derive(Clone, Copy, PartialEq)]
enum Wet {
    Surely,
    /// Nobody has said that it is dry.
    Perhaps,
}

/// Whether it grew, and has not become a drink, an oil or an extract.
fn is_plant(of: &Ingredient) -> bool {
    let by_name = || of.kind.is_none() && of.form == Form::Solid && foods::is_of_plant(&of.name);
    of.is_plant_matter() || of.kind == Some(Kind::Puree) || by_name()
}

/// `None` of what is dry, or no plant. What an entry is `like` lends it water and no dryness.
fn wet(of: &Ingredient) -> Option<Wet> {
    let says_dry = name_words(&of.name).iter().any(|word| !word.denied && DRY_WORDS.contains(&word.text));
    if !is_plant(of) || says_dry {
        return None;
    }
    if of.per_gram.grams_of(Component::Water) > DRY {
        return Some(Wet::Surely);
    }
    let is_of_the_table = of.origin == Origin::BuiltIn || Larder::built_in().find(&of.name).is_some();
    (!is_of_the_table).then_some(Wet::Perhaps)
}

fn is_fat(of: &Ingredient) -> bool {
    of.per_gram.grams_of(Component::Fat) >= FAT && !of.is_plant_matter()
}

/// Sugar and glycerol in a gram of a syrup that is bought thick; maple has least (ours).
const THICK: f64 = 0.55;

/// What a plant lies in and meets no air: honey, a syrup that is bought thick, glycerol.
fn is_thick_syrup(of: &Ingredient) -> bool {
    let sweet = of.per_gram.sugar_grams() + of.per_gram.grams_of(Component::Glycerol);
    (matches!(of.kind, Some(Kind::Honey | Kind::Syrup)) || of.form == Form::Liquid) && sweet >= THICK
}

/// Leaf, root, bulb and the like: a fruit and its peel are sour, or cooked with what they go into.
fn is_low_acid(of: &Ingredient) -> bool {
    matches!(of.kind, Some(Kind::Vegetable | Kind::Herb | Kind::Leaf | Kind::Flower | Kind::Root | Kind::Legume))
}

/// Adds what follows of the parts that lie in oil or in syrup, by the strength and the screen of the product.
pub(super) fn read(facts: &mut Facts, solved: &Solved) {
    if matches!(facts.abv, Fact::Known(abv) if abv >= PATHOGENS_STOP_ABV) {
        return;
    }
    in_oil(facts, solved);
    in_syrup(facts, solved);
}

fn in_oil(facts: &mut Facts, solved: &Solved) {
    let all = solved.ingredients();
    let fat_g: f64 = all.iter().filter(|(of, _)| is_fat(of)).map(|(_, grams)| grams).sum();
    let wet_g = |of: &Ingredient| of.per_gram.grams_of_all(&[Component::Water, Component::Ethanol]);
    let others = all.iter().filter(|(of, _)| !is_fat(of) && !is_plant(of));
    let water_g: f64 = others.map(|(of, grams)| grams * wet_g(of)).sum();
    // acid or salt enough, by the tables
    if fat_g <= water_g || facts.tcs == Fact::Known(Tcs::NonTcs) {
        return;
    }
    for (of, _) in all {
        match wet(of) {
            Some(Wet::Surely) => {
                facts.tags.add(Tag::OilInfusion);
                let from = facts.read_from.entry(Member::Tag(Tag::OilInfusion)).or_default();
                from.insert(format!("`{}`", of.name));
            }
            Some(Wet::Perhaps) => {
                let question = format!("whether `{}` is dry (where it is, call it that: \"dried …\")", of.name);
                facts.doubt_tag(Tag::OilInfusion, question);
            }
            None => {}
        }
    }
}

fn in_syrup(facts: &mut Facts, solved: &Solved) {
    let is_cooked = solved
        .card
        .all_stages()
        .filter_map(|stage| stage.heated.as_ref())
        .any(|heated| degrees_celsius(heated.value.to) >= COOKED_C);
    let parts: Vec<(&SolvedPart, &Ingredient)> =
        solved.stages.iter().flat_map(|stage| &stage.parts).filter_map(of).collect();
    let syrup_g: f64 = parts.iter().filter(|(_, of)| is_thick_syrup(of)).map(|(part, _)| part.mass_g).sum();
    let all_g: f64 = parts.iter().map(|(part, _)| part.mass_g).sum();
    if is_cooked || syrup_g < 0.5 * all_g {
        return;
    }
    for (part, of) in parts {
        // what is strained out again takes its wet pieces with it
        if part.feed.holds.is_none() && is_low_acid(of) && wet(of) == Some(Wet::Surely) {
            facts.tags.add(Tag::PlantInSyrup);
            facts.read_from.entry(Member::Tag(Tag::PlantInSyrup)).or_default().insert(format!("`{}`", part.label));
        }
    }
}

fn of(part: &SolvedPart) -> Option<(&SolvedPart, &Ingredient)> {
    match &part.found.what {
        Material::Ingredient(ingredient) => Some((part, ingredient)),
        Material::Card(_) | Material::Stage(_) => None,
    }
}
