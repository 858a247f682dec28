//! What kinds of ingredients do to the keeping of a product, one row a kind.

use crate::larder::{Alkali, Form, Ingredient, alkali_words};
use crate::mixture::Component;
use crate::safety::step_words::StepWord;
use crate::shelf_life::Filled;
use crate::spelling;
use crate::vocabulary::{Evidence, Kind};

/// What an ingredient of a kind brings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Nature {
    /// Herb, spice, peel or fruit.
    pub plant: bool,
    /// Food for lactic bacteria.
    pub nutrient: bool,
    /// It is sour of itself: where no acid is listed nobody knows how sour.
    pub sour: bool,
    /// How clean it is where nothing heats it.
    pub unheated: Filled,
    /// Ash in a gram at most, where no minerals are known. Confirmed: ginger 3.6 to 6.8 %, pepper 5.4 to 9.0 %, clove limit 7 to
    /// 8 %, bottlers' sugar 0.015 % at most; leaf, tea and fresh plant from memory; between them ours.
    pub ash: f64,
}

/// Of any fresh plant.
const FRESH_ASH: f64 = 0.025;

const CLEAN: Filled = Filled::HotClean;

const fn row(plant: bool, nutrient: bool, sour: bool, unheated: Filled, ash: f64) -> Nature {
    Nature { plant, nutrient, sour, unheated, ash }
}

/// What nobody has said the kind of counts as the worst in each column.
const UNKNOWN: Nature = row(true, true, true, Filled::ColdPlant, 0.15);

const UNKNOWN_LIQUID: Nature = row(true, true, true, Filled::ColdPlant, 0.01);

fn of_kind(kind: Kind) -> Nature {
    use Filled::{Cold, ColdPlant, Raw};
    match kind {
        Kind::Water | Kind::Salt | Kind::Acid | Kind::Spirit | Kind::Alkali => row(false, false, false, CLEAN, 0.0),
        Kind::Preservative | Kind::ProcessAid | Kind::Fining => row(false, false, false, CLEAN, 0.0),
        Kind::Sugar => row(false, false, false, Cold, 0.0003),
        Kind::Syrup => row(false, false, false, ColdPlant, 0.025),
        Kind::Honey => row(false, false, false, ColdPlant, 0.01),
        Kind::Soda => row(false, false, true, Cold, 0.0),
        Kind::Gum => row(false, false, false, Cold, 0.09),
        Kind::Vinegar => row(false, false, true, CLEAN, 0.005),
        Kind::Liqueur | Kind::Bitters => row(true, false, false, CLEAN, 0.01),
        Kind::Wine | Kind::Fortified => row(true, true, true, CLEAN, 0.005),
        Kind::Beer | Kind::Cider => row(false, true, true, CLEAN, 0.005),
        Kind::Juice | Kind::SweetCitrusJuice => row(false, true, true, ColdPlant, 0.01),
        Kind::Fruit | Kind::Puree => row(true, true, true, ColdPlant, 0.01),
        Kind::Vegetable => row(true, true, false, ColdPlant, 0.025),
        Kind::Peel => row(true, false, false, ColdPlant, 0.025),
        Kind::Herb => row(true, true, false, ColdPlant, 0.025),
        Kind::Leaf => row(true, false, false, ColdPlant, 0.15),
        Kind::Flower | Kind::Spice | Kind::Bark | Kind::Root | Kind::Seed => row(true, false, false, ColdPlant, 0.10),
        Kind::Tea | Kind::Coffee | Kind::Cacao => row(true, true, false, ColdPlant, 0.08),
        Kind::Nut | Kind::PlantMilk => row(false, true, false, Raw, 0.03),
        Kind::Cereal | Kind::Legume => row(true, true, false, ColdPlant, 0.03),
        Kind::Dairy | Kind::Egg | Kind::Fat => row(false, true, false, Raw, 0.01),
        Kind::Extract => row(true, false, false, CLEAN, 0.01),
        // a distillate of flowers holds next to nothing, and nothing that keeps it
        Kind::FlowerWater => row(true, false, false, ColdPlant, 0.001),
    }
}

/// A sugar with less sucrose, glucose or fructose than this is raw (ours).
const PURE_SUGAR: f64 = 0.985;
/// Ash in a gram of raw sugar, at most (from memory).
const RAW_SUGAR_ASH: f64 = 0.025;
/// Grams of alcohol in a gram of what is made of spirit, at least: 15 % vol, from where it is a spirit drink (Regulation (EU) 2019/787).
const OF_SPIRIT: f64 = 0.10;

/// Whether a name is that of a culture that works on: kombucha, water kefir.
pub(super) fn is_live_culture(name: &str) -> bool {
    spelling::words(name).iter().any(|word| StepWord::LiveCulture.has(word))
}

/// What this ingredient brings; a live culture is as full of yeast as raw juice.
pub(super) fn of(ingredient: &Ingredient) -> Nature {
    let nature = by_kind(ingredient);
    match ingredient.all_names().any(is_live_culture) {
        true => Nature { unheated: Filled::Raw, ..nature },
        false => nature,
    }
}

/// What nobody has said the kind of is judged by what it is made of, where that is plain.
fn by_kind(ingredient: &Ingredient) -> Nature {
    let gram = &ingredient.per_gram;
    let raw_sugar = |nature: Nature| match gram.sugar_grams() + gram.grams_of(Component::Water) >= PURE_SUGAR {
        true => nature,
        false => Nature { unheated: Filled::ColdPlant, ash: RAW_SUGAR_ASH, ..nature },
    };
    match ingredient.kind {
        Some(Kind::Sugar) if ingredient.status.evidence == Evidence::Definition => of_kind(Kind::Sugar),
        Some(Kind::Sugar) => raw_sugar(of_kind(Kind::Sugar)),
        // white sugar and water by definition: it has the ash of its sugar
        Some(Kind::Syrup) if ingredient.status.evidence == Evidence::Definition => {
            Nature { ash: of_kind(Kind::Sugar).ash * gram.sugar_grams(), ..of_kind(Kind::Syrup) }
        }
        // dried peel holds more ash than fresh
        Some(Kind::Peel) if gram.grams_of(Component::Water) < 0.2 => Nature { ash: 0.10, ..of_kind(Kind::Peel) },
        // a fresh leaf or flower is mostly water, and holds as much ash as any fresh plant
        Some(kind) if of_kind(kind).ash > FRESH_ASH && of_kind(kind).plant && gram.grams_of(Component::Water) > 0.5 => {
            Nature { ash: FRESH_ASH, ..of_kind(kind) }
        }
        Some(kind) => of_kind(kind),
        // lent by sugar to what no word calls sugar: it has the minerals of a raw one at least
        None if gram.sugar_grams() >= PURE_SUGAR && !ingredient.like.is_empty() => {
            Nature { unheated: Filled::ColdPlant, ash: RAW_SUGAR_ASH, ..of_kind(Kind::Sugar) }
        }
        None if gram.sugar_grams() >= PURE_SUGAR => of_kind(Kind::Sugar),
        // a label that gives a strength and nothing else: whatever flavours it is in traces. What gives none may be a stock.
        None if gram.grams_of(Component::Ethanol) >= OF_SPIRIT
            && gram.grams_of_all(&[Component::Ethanol, Component::Water]) >= 0.999 =>
        {
            row(true, false, false, CLEAN, 0.0)
        }
        None if ingredient.form == Form::Liquid => UNKNOWN_LIQUID,
        None => UNKNOWN,
    }
}

/// Whether its minerals are known, or it is a pure substance that has none.
pub(super) fn minerals_known(ingredient: &Ingredient) -> bool {
    let pure = matches!(
        ingredient.kind,
        Some(Kind::Water | Kind::Salt | Kind::Acid | Kind::Spirit | Kind::Soda | Kind::Preservative | Kind::ProcessAid)
    );
    // lent by what it is not, or read of what nobody says the acids of: whatever buffers it is its own
    pure || ingredient.kind.is_some() && ingredient.per_gram.bound_cations_eq[2] > 0.0
}

/// Whether a part of these names, and of this entry, neutralises acid.
pub(super) fn is_alkali(names: [&String; 2], entry: &Ingredient) -> bool {
    entry.kind == Some(Kind::Alkali) || names.into_iter().any(|name| alkali_in(&spelling::words(name)).is_some())
}

/// The alkali that these words name.
pub(super) fn alkali_in(said: &[String]) -> Option<&'static str> {
    alkali_words().map(|(wanted, _)| wanted).find(|wanted| all_stand_in(wanted, said))
}

fn all_stand_in(wanted: &str, said: &[String]) -> bool {
    wanted.split(' ').all(|word| said.iter().any(|s| s == word))
}

/// What a part of these names, and of what its entry says, neutralises; nothing where none is an alkali.
pub(super) fn alkali<'a>(names: impl Iterator<Item = &'a str>, of_entry: Alkali) -> Alkali {
    let of_name = |name: &str| {
        let said = spelling::words(name);
        alkali_words()
            .filter(move |(wanted, _)| all_stand_in(wanted, &said))
            .map(|(_, alkali)| alkali)
            .collect::<Vec<_>>()
    };
    names.flat_map(of_name).fold(of_entry, |all, one| Alkali {
        most_eq_per_gram: all.most_eq_per_gram.max(one.most_eq_per_gram),
        sure_eq_per_gram: all.sure_eq_per_gram.max(one.sure_eq_per_gram),
        gas_mol_per_eq: all.gas_mol_per_eq.max(one.gas_mol_per_eq),
    })
}
