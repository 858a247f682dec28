//! A drink made ahead: what goes into the bottles, what is added for the guest, and whether it freezes.
//!
//! The bottles are a card of their own, written here as a text: weighing it, its date, its label and its lot come from where
//! those of any card come from.

use serde::Serialize;

use crate::assessment;
use crate::card::{self, Card};
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::{House, Store};
use crate::input::{key, quoted};
use crate::mixture::Mixture;
use crate::mixture::chill::let_down;
use crate::properties::{TargetKind, value_of};
use crate::solver::target::volume_ml;
use crate::solver::{IceWater, Options, Solved, inner_drink, solve};
use crate::units::degrees_celsius;
use crate::units::display::grouped;
use crate::vocabulary::DrinkHow;

use super::added::{AddedPart, WhyAdded};
use super::for_a_guest::{Finish, for_a_guest};
use super::glass::drink;
use super::parted::{parted, whole_inside};
use super::poured_out::{BatchLine, IceInside, WaterOfIce, lines};

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
    /// The water that stands for the ice of a glass.
    pub water: BatchWater,
    /// The water that the ice may give beyond what is in the bottle, grams a glass.
    pub more_water_g: f64,
    /// What is added for the guest, for one glass.
    pub at_service: Vec<AddedPart>,
    /// The ice that a glass is blended with, the least and the most, grams.
    pub blended_with_g: Option<(f64, f64)>,
    /// How a guest gets it, in words; the card says it too.
    pub for_a_guest: String,
    /// Where it freezes, °C; `None` where that is not known.
    pub freezes_c: Option<f64>,
}

/// The water that stands for the ice of a glass, and how it is known.
#[derive(Clone, Debug, Serialize)]
pub struct BatchWater {
    /// Water in the bottle for each glass in place of that from its ice, grams: as weighed, else the least that it may be, less what
    /// is left out.
    pub water_g_per_glass: f64,
    /// What of that water goes into each glass, grams: with it the bottle would be too thick to pour in its store.
    pub water_left_out_g_per_glass: Option<f64>,
    /// The drinks inside that go in whole, the water of their own ice with them, where that of all others is left out.
    pub whole_inside: Vec<String>,
    /// The least and the most that the ice of a glass may give, grams, where the house has not weighed it.
    pub water_range_g_per_glass: Option<(f64, f64)>,
    /// The same from the ice of the drinks inside: what is in the bottle, and the most that it may be.
    pub ice_inside_g_per_glass: Option<(f64, f64)>,
    /// How many drinks made alike the house weighed, where that set it.
    pub weighed_alike: Option<usize>,
    /// What the balance of heat allows, grams a glass, where what was weighed lies outside it.
    pub outside_balance_g_per_glass: Option<(f64, f64)>,
    /// How many times what a glass pours was weighed before its ice; 1 of one glass by itself.
    pub glasses_weighed: u32,
    /// How strong a glass of it is with the least that the ice may give, % vol.
    pub abv_with_least_water_pct: Option<f64>,
    /// How strong it is with the most that the ice may give, % vol, where the house has not weighed it.
    pub abv_with_most_water_pct: Option<f64>,
}

/// What it is in a store that is colder than its freezing point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
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

/// How much of the water of its ice a bottle has to leave to the glass, to pour in a store: whole grams a glass, and the last of it.
/// `None` where it pours as it is, or would not with none of it.
fn too_much_g(liquid: &Mixture, (water_g, glasses): (f64, f64), store: &Store) -> Option<f64> {
    let pours = |less_g: f64| Slush::of(ice_share(&let_down(liquid, -less_g * glasses), store)).pours();
    if water_g <= 0.0 || pours(0.0) {
        return None;
    }
    (1..=water_g.ceil() as u32).map(|less| f64::from(less).min(water_g)).find(|less_g| pours(*less_g))
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
    let (at_service, bottled) = parted(&one, house, dilution);
    let ice_inside = IceInside::of_all(&bottled);
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
    let water_g = water.map_or(0.0, IceWater::sure_g);
    let water_range_g = water.filter(|water| !water.weighed).map(|water| (water.least_g, water.most_g));
    if let ([alone], true) = (bottled.as_slice(), water_g == 0.0) {
        let title = format!("only {} is left to bottle", alone.part.label);
        let help = match inner_drink(alone.within, alone.part) {
            Some(inner) => format!(
                "bottle that drink itself: stillroom serve {:?} --make 10; what is added for the guest is said below",
                inner.name
            ),
            None => {
                "pour it from the bottle that it is in: what is added for the guest, and why, is said below".to_owned()
            }
        };
        found.push(
            Diagnostic::warning(Code::DrinkRule, title).at(card.name.span, "made ahead").help(help).in_file(&card.file),
        );
    }
    let is_blended = card.drink.how.as_ref().is_some_and(|how| how.value == DrinkHow::Blended);
    let blended_with_g = one.ice_water.as_ref().filter(|_| is_blended).map(|ice| (ice.least_g, ice.most_g));
    let is_tasted = water.is_some_and(|water| !water.is_told());
    let meets_ice_later = strained && one.ice_water.is_some() && dilution == WaterOfIce::OnItsIce;
    let lacks_water = meets_ice_later || at_service.iter().any(|added| added.why == WhyAdded::IceInside);
    let whole_inside = if dilution == WaterOfIce::OnItsIce { whole_inside(&one, &bottled) } else { Vec::new() };
    // how much is poured for a guest, and how much water that is of it, is known once it is solved; the card says both
    let written = |(water_g, name): (f64, &str), said: Option<SaidOfBatch<'_>>, found: &mut Vec<Diagnostic>| {
        let text = text(card, name, &lines(&bottled), (water_g, glasses), store, said);
        let file = format!("{name}.toml").into();
        let (read, of_text) = card::read_by(file, text.as_str().into(), &house.customs());
        found.extend(of_text);
        Some((text, read.filter(|_| !any_error(found))?))
    };
    let solved = |card: &Card, found: &mut Vec<Diagnostic>| {
        solve(card, house, &Options::default()).told(found).filter(|_| !any_error(found))
    };
    let name = card_name(card, lacks_water, None);
    let (_, bare) = written((water_g, &name), None, found)?;
    let with_all = solved(&bare, found)?;
    let stores = &house.settings.stores;
    let kept = store.or_else(|| assessment::planned(&with_all, stores).and_then(|place| stores.get(place)));
    let less = kept.and_then(|kept| Some((kept, too_much_g(with_all.bottled(), (water_g, glasses), kept)?)));
    // it is filled so that it pours, and is another bottle than one with all of its water
    let left_out_g = less.map(|(_, less_g)| less_g);
    let of_ice_g = water_g;
    let water_g = of_ice_g - left_out_g.unwrap_or(0.0);
    let name = card_name(card, lacks_water, less.map(|(kept, _)| kept));
    let as_filled = match less {
        None => with_all,
        Some(_) => solved(&written((water_g, &name), None, found)?.1, found)?,
    };
    let liquid = as_filled.bottled();
    let ml = volume_ml(liquid)?;
    let pour = (ml / glasses, liquid.total_grams() / glasses);
    let of_own_ice_g = water_range_g.map_or(0.0, |(_, most)| (most - of_ice_g).max(0.0));
    let some = |g: f64| (g > 0.0).then_some(g);
    let more_water_g = of_own_ice_g + ice_inside.more_g();
    let to_taste_g = some(if is_tasted { of_own_ice_g } else { 0.0 } + ice_inside.more_g());
    // what is too thick to pour with all of it gets it in the glass
    let pours =
        |more_g: f64| kept.is_none_or(|kept| Slush::of(ice_share(&let_down(liquid, more_g * glasses), kept)).pours());
    let (in_bottle_g, in_glass_g) = if to_taste_g.is_none_or(pours) { (to_taste_g, None) } else { (None, to_taste_g) };
    let more_water = in_bottle_g.map(|most_g| most_g / pour.1);
    let wettest = in_bottle_g.and_then(|g| {
        let ml = volume_ml(&let_down(liquid, g * glasses))? / glasses;
        Some((ml, pour.1 + g))
    });
    let finish = Finish { left_out_g, water_g: in_glass_g, dilution, ice_water: one.ice_water.as_ref() };
    let for_a_guest = for_a_guest(card, (pour, wettest), &at_service, &finish);
    let (text, read) = written(
        (water_g, &name),
        Some(SaidOfBatch { pour_ml: pour.0, for_a_guest: &for_a_guest, more_water }),
        &mut Vec::new(),
    )?;
    let all_g = |more_g: f64| (more_g + left_out_g.unwrap_or(0.0)) * glasses;
    let abv_with = |more_g: f64| value_of(TargetKind::Abv, &let_down(liquid, all_g(more_g)));
    let freezes_c = liquid.freezing_point().ok().map(|at| degrees_celsius(at.value));
    Some(DrinkBatch {
        text,
        glasses,
        pour,
        water: BatchWater {
            water_g_per_glass: water_g,
            water_left_out_g_per_glass: left_out_g,
            whole_inside,
            water_range_g_per_glass: water_range_g,
            ice_inside_g_per_glass: Some((ice_inside.in_bottle_g, ice_inside.most_g)).filter(|of| of.1 > 0.0),
            weighed_alike: water.and_then(|water| Some(water.alike?.drinks)),
            outside_balance_g_per_glass: water.and_then(IceWater::beyond_balance),
            glasses_weighed: water.map_or(1, |water| water.glasses),
            abv_with_least_water_pct: abv_with(0.0),
            abv_with_most_water_pct: some(more_water_g).and_then(abv_with),
        },
        more_water_g,
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

/// "1 glass", "40 glasses".
pub(crate) fn glasses_text(glasses: f64) -> String {
    format!("{} {}", grouped(glasses, 0), if glasses == 1.0 { "glass" } else { "glasses" })
}

/// Two bottles of a drink that are not poured alike have two names.
fn card_name(card: &Card, lacks_water: bool, filled_for: Option<&Store>) -> String {
    let drink = &card.name.value;
    match filled_for {
        Some(store) => format!("{drink}, for the {}", store.name),
        None if lacks_water => format!("{drink}, undiluted"),
        None => format!("{drink}, batch"),
    }
}

fn text(
    card: &Card,
    name: &str,
    bottled: &[BatchLine],
    (water_g, glasses): (f64, f64),
    store: Option<&Store>,
    said: Option<SaidOfBatch<'_>>,
) -> String {
    let grams = |g: f64| quoted(&format!("{:.1} g", g * glasses));
    let line = |part: &BatchLine| match part.label == part.of {
        true => format!("{} = {}\n", key(&part.label), grams(part.mass_g)),
        false => format!("{} = {{ of = {}, amount = {} }}\n", key(&part.label), quoted(&part.of), grams(part.mass_g)),
    };
    let mut out = format!("name   = {}\n", quoted(name));
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
