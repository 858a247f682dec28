//! The inputs of a date, from a solved card.

use uom::si::time::minute;

use crate::card::{Card, TargetKind};
use crate::house::House;
use crate::instruments::readings::PH_METER;
use crate::larder::Ingredient;
use crate::mixture::acidity::ph;
use crate::mixture::{Component, Mixture};
use crate::properties::value_of;
use crate::safety::Facts;
use crate::shelf_life::heat::Curve;
use crate::shelf_life::{Contents, Product, Treatment, UncertainValue, data};
use crate::solver::Solved;
use crate::solver::resolve::Material;
use crate::spelling::{self, Claim};
use crate::units::{Abv, Brix, Ph, celsius, degrees_celsius, grams_per_litre};
use crate::vocabulary::{Allergen, Open, Tag};

use super::batch::JudgedBatch;
use super::ingredients::{grams_tagged, tagged as tagged_with};

/// Uncertainty of the water activity of sugar with ethanol: no measurement of a sweet spirit was there to test it.
const SPIRIT_AW: f64 = 0.03;
/// Sugar dissolved at or above this is counted as dissolved hot, °C (ours; pasteurising begins about here).
const HOT_C: f64 = 70.0;

/// The inputs; what is not stated or not known is left unknown.
pub fn date_inputs(solved: &Solved, house: &House, batch: &JudgedBatch, facts: &Facts) -> Product {
    let card = &solved.card;
    let liquid = batch.liquid.as_ref();
    let dry = solved.bottled().is_dry();
    let value = |kind| value_of(kind, liquid?).filter(|_| !dry);
    let mut product = Product {
        ph: ph_of(batch, house),
        water_activity: liquid.and_then(water_activity_of),
        abv: if dry { Abv::new(0.0) } else { batch.abv.and_then(Abv::new) },
        sugar: value(TargetKind::Sugar).map(grams_per_litre),
        brix: value(TargetKind::Brix).and_then(Brix::new),
        class: card.class.as_ref().and_then(|class| class.value.known()),
        contents: Some(contents(solved, facts)),
        process: process(card),
        preservatives: [Tag::Sorbate, Tag::Benzoate].into_iter().filter(|tag| facts.tags.may_hold(*tag)).count() as u8,
        ..Product::default()
    };
    // Warming a juice is no heat treatment: it is raw until it had what its pH asks for.
    let treated = product.five_log(data::tables());
    if let (Some(contents), true) = (&mut product.contents, treated) {
        (contents.juice, contents.mostly_juice, contents.raw_egg) = (false, false, false);
    }
    product
}

/// A reading beats the computed value; the uncertainty is one-sided, towards the safe side.
fn ph_of(batch: &JudgedBatch, house: &House) -> Option<UncertainValue<Ph>> {
    if let Some(read) = batch.measured.ph {
        let uncertainty = house.settings.instruments.ph_meter.unwrap_or(PH_METER);
        return Ph::new(read.value).map(|value| UncertainValue { value, uncertainty });
    }
    let computed = ph::estimate(batch.liquid.as_ref()?, celsius(20.0)).ok()?;
    Some(UncertainValue { value: computed.value, uncertainty: computed.high.get() - computed.value.get() })
}

fn water_activity_of(liquid: &Mixture) -> Option<UncertainValue<crate::units::WaterActivity>> {
    let activity = liquid.water_activity(celsius(20.0)).ok()?;
    let value = activity.estimate.value;
    let own = activity.upper.get() - value.get();
    let of_spirit = if liquid.grams_of(Component::Ethanol) > 0.0 { SPIRIT_AW } else { 0.0 };
    // A cautious value of 1 far from the middle says that nothing is known of what is dissolved (dried whole fruit).
    let known = activity.upper.get() < 1.0 || value.get() > 0.98 - of_spirit;
    known.then_some(UncertainValue { value, uncertainty: own.max(of_spirit) })
}

fn process(card: &Card) -> Treatment {
    let heated = card.last.heated.map(|h| h.value);
    Treatment {
        hot_dissolved: card.keep.hot_filled == Some(true) || heated.is_some_and(|h| degrees_celsius(h.to) >= HOT_C),
        heating: heated.and_then(|h| Some(Curve::hold(degrees_celsius(h.to), h.hold?.get::<minute>()))),
        hot_filled: card.keep.hot_filled,
        closed: card.keep.closed,
        opened: card.keep.opened == Some(true),
    }
}

/// What is in it, from what its ingredients are called and tagged, and from what they are made of.
fn contents(solved: &Solved, facts: &Facts) -> Contents {
    let tagged = |tags: &[Tag]| tags.iter().any(|&tag| facts.tags.names(tag));
    let perhaps = facts.allergens.present.iter().chain(&facts.allergens.unsure).filter_map(Open::known);
    let groups: Vec<Allergen> = perhaps.map(|allergen| allergen.group().unwrap_or(allergen)).collect();
    let allergen = |group: Allergen| groups.contains(&group);
    let sour_plant = solved.ingredients().iter().any(|(i, _)| {
        let acids: f64 =
            [Component::Citric, Component::Malic, Component::Tartaric].iter().map(|&a| i.per_gram.grams_of(a)).sum();
        acids > 0.001 && i.per_gram.grams_of(Component::Protein) > 0.0005
    });
    // A juice of which no ingredient is known may be all of it.
    let is_mostly = |grams: f64| grams <= 0.0 || grams >= 0.5 * solved.bottled().total_grams();
    // Said by a name of the ingredient, and denied or left open by none, nor by what the card calls it.
    let pasteurised = |i: &Ingredient| {
        let parts = solved.stages.iter().flat_map(|s| &s.parts);
        let labels = parts.filter(|p| matches!(&p.found.what, Material::Ingredient(of) if of.id == i.id));
        let doubted = |name: &str| matches!(spelling::pasteurised(name), Some(Claim::Denied | Claim::Open));
        i.all_names().any(|name| spelling::pasteurised(name) == Some(Claim::Made))
            && !i.all_names().any(doubted)
            && !labels.flat_map(|p| [p.label.as_str(), p.of.as_str()]).any(doubted)
    };
    let eggs = tagged_with(solved, &[Tag::RawEgg]);
    let raw_egg = eggs.is_empty() || eggs.iter().any(|(i, _)| !pasteurised(i));
    Contents {
        juice: tagged(&[Tag::RawJuice]),
        mostly_juice: tagged(&[Tag::RawJuice]) && is_mostly(grams_tagged(solved, &[Tag::RawJuice])),
        fruit_or_wine: sour_plant || tagged(&[Tag::RawJuice, Tag::Wine]),
        garlic_or_herb: tagged(&[Tag::FreshPlant, Tag::OilInfusion, Tag::Mint]),
        nut: tagged(&[Tag::Nut]) || allergen(Allergen::TreeNuts) || allergen(Allergen::Peanut),
        dairy: tagged(&[Tag::Dairy]) || allergen(Allergen::Milk),
        egg: tagged(&[Tag::RawEgg]) || allergen(Allergen::Egg),
        raw_egg: tagged(&[Tag::RawEgg]) && raw_egg,
        cooked_starch: tagged(&[Tag::Starch]),
    }
}
