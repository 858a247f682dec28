//! How sweet against how strong: a card beside what the law asks of a name.

use crate::card::TargetKind;
use crate::mixture::Mixture;
use crate::properties::value_of;
use crate::report::solve::law::sugar_as_invert;
use crate::safety::label::{self, CHECK_LOCALLY, LabelProduct, LabelRuleKind};
use crate::units::{celsius, in_kg_per_m3};
use crate::vocabulary::{Market, or_all};

use super::ink::{CHOSEN, FAINT};
use super::map::{Legend, map, up_to};

/// Weaker ones are no drink with alcohol, % vol: above it a label states the strength (Regulation (EU) No 1169/2011).
const FROM_ABV: f64 = 1.2;
/// The map shows at least so much, % vol and g/L (ours: most liqueurs of a bar lie on it).
const LEAST: (f64, f64) = (50.0, 400.0);

/// The least that one of the markets asks of a product.
fn least(markets: &[Market], kind: LabelRuleKind, product: LabelProduct) -> Option<f64> {
    let mut rules = or_all(markets).iter().flat_map(|market| label::rules(*market, kind));
    rules.find(|rule| rule.product == product).map(|rule| rule.value)
}

/// The card on the map of sweetness and strength, with the least that the markets of the house ask of a liqueur; `None` of
/// what has no alcohol. Of "crème de …" the sources disagree: it is not drawn.
pub fn how_sweet_and_strong(name: &str, liquid: &Mixture, markets: &[Market]) -> Option<String> {
    let abv = value_of(TargetKind::Abv, liquid).filter(|abv| *abv >= FROM_ABV)?;
    let sugar = sugar_as_invert(liquid)?;
    let g_per_l = in_kg_per_m3(liquid.density(celsius(20.0)).ok()?.value);
    let strong = least(markets, LabelRuleKind::MinimumAbv, LabelProduct::Liqueur);
    let sweet = least(markets, LabelRuleKind::MinimumSugar, LabelProduct::Liqueur);
    let by_mass = least(markets, LabelRuleKind::MinimumSugarByMass, LabelProduct::CordialOrLiqueur);
    let mut below = vec![format!("point: this card, {abv:.1} % vol and {sugar:.0} g/L")];
    if let Some((strong, sweet)) = strong.zip(sweet) {
        below.push(format!("liqueur, EU, UK: from {strong:.0} % vol and {sweet:.0} g/L"));
    }
    // by mass: as many g/L as the density of this liquid makes of it
    let by_mass = by_mass.map(|percent| (percent, percent / 100.0 * g_per_l));
    if let Some((percent, g_l)) = by_mass {
        below.push(format!("liqueur, US: from {percent} % by mass, here {g_l:.0} g/L"));
    }
    below.push(format!("{CHECK_LOCALLY}: it may ask more"));
    let legend = Legend { name, shows: "sweet and strong", axes: ["% vol", "g/L of sugar as invert"], below };
    let (right, top) = (up_to((abv + 5.0).max(LEAST.0), 10.0), up_to((sugar + 50.0).max(LEAST.1), 100.0));
    let drawn = map(&legend, 0.0..right, 0.0..top, |map| {
        if let Some((strong, sweet)) = strong.zip(sweet) {
            map.area(&[(strong, sweet), (right, sweet), (right, top), (strong, top)], super::ink::QUOTED)?;
            map.limit((strong, 0.0), (strong, top))?;
            map.limit((strong, sweet), (right, sweet))?;
        }
        if let Some((_, g_l)) = by_mass {
            map.curve(&[(0.0, g_l), (right, g_l)], FAINT, 2)?;
        }
        map.point((abv, sugar), CHOSEN)?;
        if let Some((strong, sweet)) = strong.zip(sweet) {
            map.named("liqueur", strong..right, sweet..top)?;
            map.named("spirit drink", strong..right, by_mass.map_or(0.0, |(_, g_l)| g_l)..sweet)?;
            map.named("weaker", 0.0..strong, sweet..top)?;
        }
        Ok(())
    });
    Some(drawn).filter(|svg| !svg.is_empty())
}
