//! The water that ice gives to a drink: a part of its last stage, weighed by the house or found by the balance of heat.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::card::Card;
use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::Mixture;
use crate::mixture::chill::{Chilled, Chilling};
use crate::units::display::{short, span};
use crate::units::{degrees_celsius, in_grams};
use crate::vocabulary::table::rows;
use crate::vocabulary::{DrinkHow, IceKind};

use super::super::ice_water::{IceWater, WeighedAlike};
use super::super::resolve::FoundPart;
use super::super::solved::{InnerCard, SolvedPart, SolvedStage};
use super::super::stage;
use super::cook::{Cook, Melt, Options};
use super::{warm, weighed};

/// A row of the table: what a drink meets by how it is made.
#[derive(Debug, Deserialize)]
struct MetByHow {
    how: DrinkHow,
    share_low: f64,
    share_high: f64,
    vessel_low: f64,
    vessel_high: f64,
    ice_low: f64,
    ice_high: f64,
    kind: IceKind,
}

static MET: LazyLock<Vec<MetByHow>> = LazyLock::new(|| rows("chilling.csv", include_str!("../chilling.csv")));

/// How warm a drink is before the ice, °C: part of it from the fridge, part from the shelf (common practice, no source).
const POURED_C: (f64, f64) = (14.0, 21.0);
/// How warm a vessel is, °C (common practice, no source).
const VESSEL_C: f64 = 21.0;
/// The water on wet ice as a film, mm (ours: a cube of 30 g then carries 0.6 to 1.2 g).
const FILM_MM: (f64, f64) = (0.1, 0.2);
/// Ice colder than this is dry, °C (ours).
const DRY_BELOW_C: f64 = -2.0;
/// What a kilogram of ethanol gives off as its spirit is let down to a drink and cooled, over the plain sum of heats, kJ:
/// about 65 to 105 of mixing (excess enthalpy, -4.6 kJ for each mole of ethanol at 40 % vol, -7.6 to -9.4 at 22 and 15 % vol,
/// 25 °C), and of the cooling what ethanol in water takes up more than alone; `from memory`, so a third either way.
const MIXING_KJ_PER_KG: (f64, f64) = (80.0, 160.0);

/// One end of what may be: `low` and `high` pick from the pairs.
fn at_end(
    (drink, poured_c): (&Mixture, (f64, f64)),
    card: &Card,
    met: &MetByHow,
    pick: fn((f64, f64)) -> f64,
    ice_g: f64,
) -> Chilled {
    let ice = card.drink.ice.as_ref();
    let ice_c = ice.and_then(|ice| ice.at).map_or(0.0, degrees_celsius).min(0.0);
    let kind = ice.and_then(|ice| ice.kind).unwrap_or(met.kind);
    let chilling = Chilling {
        drink,
        from_c: pick(poured_c),
        ice_g,
        ice_c,
        wet: if ice_c < DRY_BELOW_C { 0.0 } else { kind.wet(pick(FILM_MM)) },
        vessel_kj_per_k: pick((met.vessel_low, met.vessel_high)),
        vessel_c: VESSEL_C,
        mixing_kj_per_kg: pick(MIXING_KJ_PER_KG),
        share: pick((met.share_low, met.share_high)),
    };
    let chilled = chilling.run();
    // What is blended is drunk with all of its ice.
    match met.how {
        DrinkHow::Blended => Chilled { melted_g: ice_g - chilled.surface_g, ..chilled },
        _ => chilled,
    }
}

/// What the ice gives to a drink of these parts; `None` where it meets none.
fn ice_water(drink: &Mixture, (meets, inner): (&[&SolvedPart], &[InnerCard]), card: &Card) -> Option<IceWater> {
    let how = card.drink.how.as_ref()?.value;
    let weighed_g = card.drink.weighed_g();
    let ice = card.drink.ice.as_ref();
    if how == DrinkHow::Built && ice.is_none() && weighed_g.is_none() {
        return None;
    }
    let met = MET.iter().find(|met| met.how == how)?;
    let stated = ice.and_then(|ice| ice.grams).map(in_grams);
    let ends = stated.map_or([met.ice_low, met.ice_high], |stated| [stated, stated]);
    let (low, high): (fn((f64, f64)) -> f64, _) = (|pair| pair.0, (|pair| pair.1) as fn((f64, f64)) -> f64);
    let rest_c = card.last.at.map(degrees_celsius).map_or(POURED_C, |stated| (stated, stated));
    let poured_c = warm::poured_c(meets.iter().copied(), inner, rest_c);
    // More ice gives more water where it is wet, and less where it is colder than the drink can get.
    let all = ends.into_iter().flat_map(|g| [low, high].map(|pick| at_end((drink, poured_c), card, met, pick, g)));
    let all: Vec<Chilled> = all.collect();
    let water = || all.iter().map(Chilled::water_g);
    let (least_g, most_g) = (water().fold(f64::INFINITY, f64::min), water().fold(0.0, f64::max));
    let at_c =
        (all.iter().map(|c| c.at_c).fold(f64::INFINITY, f64::min), all.iter().map(|c| c.at_c).fold(f64::MIN, f64::max));
    let balance_g = (least_g, most_g);
    if let Some(grams) = weighed_g {
        let (at_c, assumed, warm, alike) = (None, Vec::new(), Vec::new(), None);
        let (least_g, most_g, weighed) = (grams, grams, true);
        let glasses = glasses_weighed(card, drink.total_grams());
        return Some(IceWater { grams, least_g, most_g, weighed, at_c, assumed, warm, alike, balance_g, glasses });
    }
    Some(IceWater {
        grams: 0.5 * (least_g + most_g),
        least_g,
        most_g,
        weighed: false,
        at_c: Some(at_c),
        assumed: assumed(card, met, stated),
        warm: meets.iter().filter_map(|part| warm::assumed(part, inner, rest_c)).collect(),
        alike: None,
        balance_g,
        glasses: 1,
    })
}

/// Nobody shakes twice alike: what was weighed of other drinks is off by at least this share of it (common practice, no source).
const ALIKE_WITHIN: f64 = 0.1;

/// The same where the house weighed drinks made alike: what it weighed counts, and the balance stands beside it. There is no
/// more of it than there is ice.
fn as_weighed_alike(balance: IceWater, alike: WeighedAlike, all_g: f64) -> IceWater {
    let within = ALIKE_WITHIN * alike.middle_g;
    let weighed = IceWater {
        grams: alike.middle_g.min(all_g),
        least_g: alike.least_g.min(alike.middle_g - within).min(all_g),
        most_g: alike.most_g.max(alike.middle_g + within).min(all_g),
        alike: Some(alike),
        ..balance
    };
    // how cold it gets follows from the water of the balance
    if weighed.beyond_balance().is_some() { IceWater { at_c: None, ..weighed } } else { weighed }
}

/// What a drink weighed before its ice may be short of what its card pours by this share of it: jiggers and scales (ours).
const SHORT_OF_POURED: f64 = 0.1;

/// A drink that weighed less than is poured into it was another one. With its tin it weighs more, which does no harm.
fn less_than_poured(card: &Card, met_g: f64) -> Option<Diagnostic> {
    let before = card.drink.ice.as_ref()?.before?;
    let grams = in_grams(before.value);
    let title =
        format!("the drink weighed {} g before the ice, and {} g are poured into it", short(grams), short(met_g));
    (grams < (1.0 - SHORT_OF_POURED) * met_g).then(|| {
        Diagnostic::error(Code::Contradiction, title)
            .at(before.span, "less than its parts")
            .help("weigh the drink as its card pours it; what goes in behind the ice says so: { amount = \"60 ml\", after = \"ice\" }")
    })
}

/// More glasses are not shaken in one tin (ours).
const MOST_GLASSES: u32 = 6;
/// So near to a whole number of glasses lies what was weighed of several (ours).
const NEAR_GLASSES: f64 = 0.03;

/// How many glasses a weighing before the ice is of. A tin on the scale can weigh as much as a glass: it is asked, and not divided.
fn glasses_weighed(card: &Card, met_g: f64) -> u32 {
    let before = card.drink.ice.as_ref().and_then(|ice| ice.before);
    let glasses = before.map_or(1.0, |before| in_grams(before.value) / met_g);
    let is_of = |n: &u32| (glasses - f64::from(*n)).abs() <= NEAR_GLASSES * f64::from(*n);
    (2..=MOST_GLASSES).find(is_of).unwrap_or(1)
}

/// A slip of the pen or of the scale: what the house weighed counts, and is asked about.
fn implausible(card: &Card, water: &IceWater) -> Option<Diagnostic> {
    let ice = card.drink.ice.as_ref();
    let at = card.drink.water.as_ref().map(|w| w.span).or_else(|| Some(ice?.after.as_ref()?.span))?;
    // of what is built without a word on ice nobody knows that it meets any
    let meets_ice = ice.is_some() || card.drink.how.as_ref()?.value != DrinkHow::Built;
    let (least, most) = water.balance_g;
    let before = ice.and_then(|ice| ice.before);
    if let (2.., Some(before)) = (water.glasses, before) {
        let all = short(in_grams(before.value));
        let title = format!("the drink weighed {all} g before its ice, {} times what is poured", water.glasses);
        let help = "several in one tin? Write of one glass what it gained: water = \"24 g\". With its tin on the scale it may be right; other drinks do not learn from this";
        return Some(Diagnostic::warning(Code::ReadingDiffers, title).at(before.span, "of one glass?").help(help));
    }
    let title = format!("the ice gave {} g of water, and it gives {} g", short(water.grams), span(least, most, 0));
    (meets_ice && water.is_implausible()).then(|| {
        Diagnostic::warning(Code::ReadingDiffers, title)
            .at(at, "far from the balance of heat")
            .help("weigh the drink before and after its ice again; other drinks do not learn from this")
    })
}

/// What was taken for granted of it, in words.
fn assumed(card: &Card, met: &MetByHow, stated_g: Option<f64>) -> Vec<String> {
    let ice = card.drink.ice.as_ref();
    let mut assumed = Vec::new();
    if stated_g.is_none() {
        assumed.push(format!("{:.0} to {:.0} g of ice", met.ice_low, met.ice_high));
    }
    if ice.and_then(|ice| ice.kind).is_none() {
        assumed.push(format!("ice: {}", met.kind));
    }
    if ice.and_then(|ice| ice.at).is_none_or(|at| degrees_celsius(at) >= DRY_BELOW_C) {
        let kind = ice.and_then(|ice| ice.kind).unwrap_or(met.kind);
        let wet = |film| 100.0 * kind.wet(film);
        assumed.push(format!("wet ice, {:.0} to {:.0} % of it water on its surface", wet(FILM_MM.0), wet(FILM_MM.1)));
    }
    assumed.push(format!(
        "a vessel at {VESSEL_C:.0} °C that gives {} to {} kJ for each degree",
        short(met.vessel_low),
        short(met.vessel_high)
    ));
    if card.last.at.is_none() {
        assumed.push(format!("poured at {:.0} to {:.0} °C", POURED_C.0, POURED_C.1));
    }
    if met.how != DrinkHow::Blended {
        let (low, high) = (100.0 * met.share_low, 100.0 * met.share_high);
        assumed.push(format!("{}, so {low:.0} to {high:.0} % of the way to its freezing point", met.how));
    }
    assumed
}

impl Cook<'_> {
    /// Adds the water from its ice to the last stage of a drink.
    pub(super) fn with_ice(
        &mut self,
        card: &Card,
        last: &mut SolvedStage,
        inner: &[InnerCard],
        options: &Options,
    ) -> Option<IceWater> {
        let drives_gas_out = card.drink.how.as_ref().is_some_and(|how| how.value.drives_gas_out());
        for part in &mut last.parts {
            part.after_ice |= part.found.gas && drives_gas_out;
        }
        let meets: Vec<&SolvedPart> = last.parts.iter().filter(|part| !part.after_ice).collect();
        let drink = stage::run(meets.iter().map(|part| (&part.feed, part.mass_g)), last.lost).out;
        if let Some(why) = less_than_poured(card, drink.total_grams()) {
            self.refuse(why);
        }
        let found = ice_water(&drink, (&meets, inner), card)?;
        let alone = options.by_balance || found.weighed;
        let alike = if alone { None } else { weighed::alike(card, &found, self.house) };
        let all_g = card.drink.ice.as_ref().and_then(|ice| ice.grams).map_or(f64::INFINITY, in_grams);
        let found = match alike {
            Some(alike) => as_weighed_alike(found, alike, all_g),
            None => found,
        };
        self.found.extend(implausible(card, &found));
        let grams = match options.melt {
            Melt::None => return None,
            Melt::Usual => found.grams,
            Melt::Least => found.least_g,
            Melt::Most => found.most_g,
        };
        let water = self.house.larder.find("water").map(FoundPart::ingredient)?;
        let half = 0.5 * (found.most_g - found.least_g);
        let melts = Some(if grams > 0.0 { half / grams } else { 0.0 });
        last.parts.push(SolvedPart { melts, ..SolvedPart::added(IceWater::LABEL, water, grams) });
        last.run_again();
        Some(IceWater { grams, ..found })
    }
}
