//! A drink made ahead: what goes into the bottles, what is added for the guest, and whether it freezes.
//!
//! The bottles are a card of their own, written here as a text: weighing it, its date, its label and its lot come from where
//! those of any card come from.

use crate::assessment;
use crate::card::{self, Card};
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::{House, Store};
use crate::input::{key, quoted};
use crate::mixture::Mixture;
use crate::mixture::chill::let_down;
use crate::properties::{TargetKind, value_of};
use crate::solver::resolve::Material;
use crate::solver::target::volume_ml;
use crate::solver::{IceWater, Options, Solved, by_hand, may_be_warm, solve};
use crate::spelling::words;
use crate::units::display::{grouped, short, span, volume_text};
use crate::units::{degrees_celsius, in_grams, millilitres};
use crate::vocabulary::{DrinkHow, IceKind, Kind};

use super::added::{AddedPart, WhyAdded};
use super::glass::drink;
use super::parted::parted;
use super::poured_out::{BatchLine, lines};

/// A batch of a drink.
#[derive(Clone, Debug)]
pub struct DrinkBatch {
    /// The card of what is bottled, as a file of the house.
    pub text: String,
    /// The same, read.
    pub card: Card,
    /// The same, solved for all glasses.
    pub solved: Solved,
    /// What is bottled without the water that may still go in, to taste; `None` where none may.
    pub as_filled: Option<Solved>,
    /// How many glasses.
    pub glasses: f64,
    /// What one glass takes from the bottle: millilitres at 20 °C and grams.
    pub pour: (f64, f64),
    /// Water in the bottle for each glass in place of that from its ice, grams: as weighed, else the least that it may be.
    pub water_g: f64,
    /// The least and the most that the ice of a glass may give, grams, where the house has not weighed it.
    pub water_range_g: Option<(f64, f64)>,
    /// How many drinks made alike the house weighed, where that set it.
    pub weighed_alike: Option<usize>,
    /// How strong it is with the most that the ice may give, % vol, where the house has not weighed it.
    pub abv_with_most_water_pct: Option<f64>,
    /// What is added for the guest, for one glass.
    pub at_service: Vec<AddedPart>,
    /// The ice that a glass is blended with, the least and the most, grams.
    pub blended_with_g: Option<(f64, f64)>,
    /// How a guest gets it, in words; the card says it too.
    pub for_a_guest: String,
    /// Where it freezes, °C; `None` where that is not known.
    pub freezes_c: Option<f64>,
}

/// What it is in a store that is colder than its freezing point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Slush {
    /// No ice in it.
    Liquid,
    /// Ice in it, and it pours.
    Pours,
    /// It does not pour.
    Thick,
    /// Hard.
    Hard,
}

impl Slush {
    /// By the share of it that is ice (common practice, no source: a slush of a machine is a third to a half ice).
    pub fn of(ice_share: f64) -> Self {
        match ice_share {
            share if share < 0.005 => Self::Liquid,
            share if share < 0.3 => Self::Pours,
            share if share < 0.55 => Self::Thick,
            _ => Self::Hard,
        }
    }
}

/// What stays empty of a bottle in which ice forms, as a share: ice takes 1/0.917 of the room of its water (density of ice at
/// 0 °C 0.917 g/ml, from memory), so at most 0.083 more than the bottle was filled to.
pub const HEAD_SPACE: f64 = 0.1;

impl Slush {
    /// Whether it comes out of the bottle.
    pub fn pours(self) -> bool {
        matches!(self, Self::Liquid | Self::Pours)
    }

    /// What a bottle is filled to, as a share.
    pub fn fill(self) -> f64 {
        if self == Self::Liquid { 1.0 } else { 1.0 - HEAD_SPACE }
    }
}

/// The share of a liquid by weight that is ice at the temperature of a store.
pub fn ice_share(liquid: &Mixture, store: &Store) -> f64 {
    let total = liquid.total_grams();
    if total > 0.0 { liquid.ice_at(store.temperature) / total } else { 0.0 }
}

/// Where the water of the ice of a shaken, stirred or thrown drink is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WaterOfIce {
    /// In the bottle: it is poured as it is.
    #[default]
    InTheBottle,
    /// Not in it: it meets its ice for each guest.
    OnItsIce,
}

/// A batch for so many glasses, kept in a store of the house.
pub fn batch(
    card: &Card,
    house: &House,
    (glasses, dilution): (f64, WaterOfIce),
    store: Option<&Store>,
    found: &mut Vec<Diagnostic>,
) -> Option<DrinkBatch> {
    let one = drink(card, house, found)?;
    let (at_service, bottled) = parted(&one, house);
    // water by itself is not made ahead
    if bottled.iter().all(|of| of.part.is_water()) {
        let title = "nothing of this drink keeps: all of it is added for the guest";
        return Diagnostic::error(Code::DrinkRule, title)
            .at(card.name.span, "juice, soda, egg and dairy are not bottled ahead")
            .help("make it to order")
            .in_file(&card.file)
            .refused(found);
    }
    let strained = card.drink.how.as_ref().is_some_and(|how| how.value.is_strained());
    let water = one.ice_water.as_ref().filter(|_| strained && dilution == WaterOfIce::InTheBottle);
    // where nobody weighed it the bottle has the least: water is added, and never taken out
    let water_g =
        water.map_or(0.0, |water| if water.weighed || water.alike.is_some() { water.grams } else { water.least_g });
    let water_range_g = water.filter(|water| !water.weighed).map(|water| (water.least_g, water.most_g));
    if let ([alone], true) = (bottled.as_slice(), water_g == 0.0) {
        let title = format!("only {} is left to bottle", alone.part.label);
        let help = "it stands in a bottle already: what is added for the guest, and why, is said below";
        found.push(
            Diagnostic::warning(Code::DrinkRule, title).at(card.name.span, "made ahead").help(help).in_file(&card.file),
        );
    }
    let is_blended = card.drink.how.as_ref().is_some_and(|how| how.value == DrinkHow::Blended);
    let blended_with_g = one.ice_water.as_ref().filter(|_| is_blended).map(|ice| (ice.least_g, ice.most_g));
    let is_tasted = water.is_some_and(|water| !water.weighed && water.alike.is_none());
    // how much is poured for a guest, and how much water that is of it, is known once it is solved; the card says both
    let written = |said: Option<SaidOfBatch<'_>>, found: &mut Vec<Diagnostic>| {
        let text = text(card, &lines(&bottled), water_g, glasses, store, said);
        let file = format!("{}.toml", card_name(card)).into();
        let (read, of_text) = card::read_by(file, text.as_str().into(), &house.customs());
        found.extend(of_text);
        Some((text, read.filter(|_| !any_error(found))?))
    };
    let solved = |card: &Card, found: &mut Vec<Diagnostic>| {
        let outcome = solve(card, house, &Options::default());
        found.extend(outcome.diagnostics);
        outcome.solved.filter(|_| !any_error(found))
    };
    let (_, bare) = written(None, found)?;
    let as_filled = solved(&bare, found)?;
    let liquid = as_filled.bottled();
    let ml = volume_ml(liquid)?;
    let pour = (ml / glasses, liquid.total_grams() / glasses);
    let most_g = water_range_g.map(|(_, most)| (most - water_g).max(0.0));
    let to_taste_g = most_g.filter(|_| is_tasted);
    // what is too thick to pour with all of it gets it in the glass
    let stores = &house.settings.stores;
    let kept = store.or_else(|| assessment::planned(&as_filled, stores).and_then(|place| stores.get(place)));
    let pours =
        |more_g: f64| kept.is_none_or(|kept| Slush::of(ice_share(&let_down(liquid, more_g * glasses), kept)).pours());
    let (in_bottle_g, in_glass_g) = if to_taste_g.is_none_or(pours) { (to_taste_g, None) } else { (None, to_taste_g) };
    let more_water = in_bottle_g.map(|most_g| most_g / pour.1);
    let wettest = in_bottle_g.and_then(|g| {
        let ml = volume_ml(&let_down(liquid, g * glasses))? / glasses;
        Some((ml, pour.1 + g))
    });
    let finish = Finish { water_g: in_glass_g, dilution, ice_water: one.ice_water.as_ref() };
    let for_a_guest = for_a_guest(card, (pour, wettest), &at_service, &finish);
    let (text, read) =
        written(Some(SaidOfBatch { pour_ml: pour.0, for_a_guest: &for_a_guest, more_water }), &mut Vec::new())?;
    let abv_with_most_water_pct = most_g.and_then(|g| value_of(TargetKind::Abv, &let_down(liquid, g * glasses)));
    let freezes_c = liquid.freezing_point().ok().map(|at| degrees_celsius(at.value));
    Some(DrinkBatch {
        text,
        glasses,
        pour,
        water_g,
        water_range_g,
        weighed_alike: water.and_then(|water| Some(water.alike?.drinks)),
        abv_with_most_water_pct,
        at_service,
        blended_with_g,
        for_a_guest,
        freezes_c,
        solved: solved(&read, &mut Vec::new())?,
        as_filled: more_water.map(|_| as_filled),
        card: read,
    })
}

/// What the card of a batch says of it once it was solved.
struct SaidOfBatch<'a> {
    /// For a guest, ml.
    pour_ml: f64,
    for_a_guest: &'a str,
    /// Water that may still go in, as a share of what is bottled.
    more_water: Option<f64>,
}

/// How it is finished for a guest.
struct Finish<'a> {
    /// Water that is too much for the bottle, a glass.
    water_g: Option<f64>,
    dilution: WaterOfIce,
    ice_water: Option<&'a IceWater>,
}

/// "1 glass", "40 glasses".
pub(crate) fn glasses_text(glasses: f64) -> String {
    format!("{} {}", grouped(glasses, 0), if glasses == 1.0 { "glass" } else { "glasses" })
}

fn card_name(card: &Card) -> String {
    format!("{}, batch", card.name.value)
}

/// "pour 84.9 ml (87 g), add 21.3 ml lime juice"; of what may still be watered also the pour with all that water. What goes in
/// behind the ice comes after the work.
fn for_a_guest(
    card: &Card,
    (pour, wettest): ((f64, f64), Option<(f64, f64)>),
    added: &[AddedPart],
    finish: &Finish<'_>,
) -> String {
    // the water of its ice is in the bottle, and nothing cools it any more
    let is_strained = card.drink.how.as_ref().is_some_and(|how| how.value.is_strained());
    let nothing_cools = is_strained && finish.dilution == WaterOfIce::InTheBottle;
    let warmth = |AddedPart { part, why }: &AddedPart| match (part.at_c, *why) {
        _ if nothing_cools && may_be_warm(part) => ", cooled".to_owned(),
        (Some(at), _) => format!(" at {} °C", grouped(at, 0)),
        (None, WhyAdded::Hot) => ", hot".to_owned(),
        (None, _) => String::new(),
    };
    let amount = |AddedPart { part, why }: &AddedPart| match (by_hand::poured_by_hand(part), part.volume_ml()) {
        (Some(_), _) if *why == WhyAdded::Sprayed => {
            let written = part.written.as_ref().map_or_else(String::new, |written| written.text.trim().to_owned());
            format!("{written} of {}", part.label)
        }
        (Some(counted), _) => counted,
        (None, Some(ml)) => format!("{} ml {}", short(ml), part.label),
        (None, None) => format!("{} g {}", short(part.mass_g), part.label),
    };
    let part = |added: &AddedPart| amount(added) + &warmth(added);
    let put_in = |behind_ice: bool| {
        // what is sprayed goes on last
        let is_last = |added: &&AddedPart| added.part.after_ice || added.why == WhyAdded::Sprayed;
        let all: Vec<String> = added.iter().filter(|added| is_last(added) == behind_ice).map(part).collect();
        (!all.is_empty()).then(|| format!("add {}", all.join(", ")))
    };
    let is_shaken_up = added.iter().filter(|added| !added.part.after_ice).any(wants_shaking);
    let measure = |(ml, grams): (f64, f64)| format!("{} ({} g)", volume_text(millilitres(ml)), grouped(grams, 0));
    let poured = match wettest.map(measure).filter(|most| *most != measure(pour)) {
        Some(most) => format!("pour {} as filled, with all its water {most}", measure(pour)),
        None => format!("pour {}", measure(pour)),
    };
    let watered = finish.water_g.map(|g| format!("add water to taste, up to {} ml", grouped(g, 0)));
    let all = [Some(poured), watered, put_in(false), worked(card, is_shaken_up, finish), put_in(true)];
    all.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// What makes no foam, or stands apart, until it is shaken: egg, milk and cream, the water of chickpeas, coconut cream, espresso and
/// cold brew, pineapple, a purée.
fn wants_shaking(added: &AddedPart) -> bool {
    match (added.why, &added.part.found.what) {
        (WhyAdded::Egg | WhyAdded::Dairy, _) => true,
        (_, Material::Ingredient(of)) => {
            let is_pineapple = || words(&of.name).iter().any(|word| word == "pineapple");
            matches!(of.kind, Some(Kind::Legume | Kind::PlantMilk | Kind::Coffee | Kind::Puree)) || is_pineapple()
        }
        (_, Material::Card(_) | Material::Stage(_)) => false,
    }
}

/// What is still done with it for the guest. The water of the ice is in the bottle where the drink is strained off it: an egg is then
/// shaken without any. Of the others the ice stays in the glass.
fn worked(card: &Card, is_shaken_up: bool, finish: &Finish<'_>) -> Option<String> {
    let ice_water = finish.ice_water;
    let how = card.drink.how.as_ref()?.value;
    let ice = card.drink.ice.as_ref();
    let ice = |usual: &str| {
        let kind = match ice.and_then(|ice| ice.kind) {
            None => usual.to_owned(),
            Some(IceKind::Cubes) => "ice cubes".to_owned(),
            Some(kind) => format!("{kind} ice"),
        };
        let grams = ice.and_then(|ice| ice.grams).map(|grams| format!("{} g of ", short(in_grams(grams))));
        format!("{}{kind}", grams.unwrap_or_default())
    };
    match how {
        DrinkHow::Blended => {
            let water = ice_water?;
            Some(format!("blend with {} g of ice", span(water.least_g, water.most_g, 0)))
        }
        DrinkHow::Shaken | DrinkHow::Stirred | DrinkHow::Thrown if finish.dilution == WaterOfIce::OnItsIce => {
            let how = match how {
                DrinkHow::Shaken => "shake",
                DrinkHow::Thrown => "throw",
                _ => "stir",
            };
            Some(format!("{how} with {}, strain", ice("ice")))
        }
        DrinkHow::Shaken if is_shaken_up => Some("shake hard without ice".to_owned()),
        DrinkHow::Shaken | DrinkHow::Stirred | DrinkHow::Thrown => None,
        DrinkHow::Swizzled => Some(format!("swizzle with {}", ice("crushed ice"))),
        DrinkHow::Built => ice_water.map(|_| format!("serve on {}", ice("ice"))),
    }
}

fn text(
    card: &Card,
    bottled: &[BatchLine],
    water_g: f64,
    glasses: f64,
    store: Option<&Store>,
    said: Option<SaidOfBatch<'_>>,
) -> String {
    let grams = |g: f64| quoted(&format!("{:.1} g", g * glasses));
    let line = |part: &BatchLine| match part.label == part.of {
        true => format!("{} = {}\n", key(&part.label), grams(part.mass_g)),
        false => format!("{} = {{ of = {}, amount = {} }}\n", key(&part.label), quoted(&part.of), grams(part.mass_g)),
    };
    let mut out = format!("name   = {}\n", quoted(&card_name(card)));
    out.push_str("class  = \"bottled drink\"\n");
    out.push_str(&format!("source = {}\n", quoted(&format!("{} of {}", glasses_text(glasses), card.name.value))));
    out.push_str(&format!("pours  = {}\n", quoted(&card.name.value)));
    out.push_str("steps  = [\"Weigh all parts together, stir until clear, bottle and label.\"]\n");
    out.extend(said.iter().map(|said| format!("serving = {}\n", quoted(&format!("{:.1} ml", said.pour_ml)))));
    out.extend(said.iter().map(|said| format!("for_a_guest = {}\n", quoted(said.for_a_guest))));
    if !card.process.is_empty() {
        let all: Vec<String> = card.process.iter().map(|process| quoted(&process.to_string())).collect();
        out.push_str(&format!("process = [{}]\n", all.join(", ")));
    }
    out.push_str("\n[parts]\n");
    out.extend(bottled.iter().map(line));
    if water_g > 0.0 {
        out.push_str(&format!("\"water, in place of ice\" = {{ of = \"water\", amount = {} }}\n", grams(water_g)));
    }
    out.push_str("\n[keep]\nfill   = \"cold\"\nclosed = true\nin     = \"glass\"\n");
    out.extend(store.map(|store| format!("store  = {}\n", quoted(&store.name))));
    // not a hair less than it may be
    let share = said.and_then(|said| said.more_water).map(|share| (1000.0 * share).ceil() / 10.0);
    out.extend(share.filter(|share| *share > 0.0).map(|share| format!("more_water = \"{share:.1} %\"\n")));
    out
}
