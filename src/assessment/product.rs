//! The inputs of a date, from a solved card and the cards inside it.

use crate::card::TargetKind;
use crate::house::House;
use crate::larder::Ingredient;
use crate::mixture::acidity::bounds::PhBounds;
use crate::mixture::{Component, Mixture};
use crate::properties::value_of;
use crate::safety::alcohol_bands::alcohol_keeps;
use crate::safety::{self, Facts, Member};
use crate::shelf_life::heat::Curve;
use crate::shelf_life::hurdles::LEAST_ABV_DOUBT;
use crate::shelf_life::{Contents, Egg, Filled, Product};
use crate::solver::{InnerCard, Solved, SolvedPart, SolvedStage};
use crate::spelling::{self, Claim};
use crate::units::{celsius, in_millilitres};
use crate::vocabulary::{Allergen, Kind, Open, Tag};

use super::activity::{AW_DOUBT, dated_liquid, water_activity_with_doubt};
use super::alcohol_left::AlcoholLeft;
use super::batch::JudgedBatch;
use super::dairy::dairy;
use super::heated::{five_log, heating, hot, put_in_cold};
use super::lent_sugar::without_sugar;
use super::method;
use super::most::MOST_OF_IT;
use super::nature;
use super::ph::{self, ReadPh, Unlisted};
use super::stood;

/// Poured by the drop or the dash, ml a serving at most.
const DROPS_ML: f64 = 2.0;
/// Grams of alcohol in a gram of what is bought as a liqueur, at least: 15 % vol (Regulation (EU) 2019/787).
const LIQUEUR_SPIRIT: f64 = 0.10;
/// A product with less liquid, most of it fruit, peel or herb, was meant to be dried, whether it is dry enough or not (ours).
const DRIED_LIQUID: f64 = 0.35;

/// What a date takes of a card, and what the cards around it take over.
#[derive(Clone, Debug)]
pub struct DateInputs {
    /// The product as a date sees it.
    pub product: Product,
    /// Its pH bounds without a reading.
    pub bounds: PhBounds,
    /// What was read of its pH, and what became of that.
    pub read: Option<ReadPh>,
    /// An alkali that a step puts in and no line weighs, by its name.
    pub(super) unweighed_alkali: Option<&'static str>,
    /// The heating of the whole.
    pub heating: Option<Curve>,
    /// What its steps put in once the pan was hot, by its label: it counts as unheated.
    pub(super) put_in_cold: Vec<String>,
    pub(super) unlisted: Unlisted,
    /// The share of its alcohol that its pans leave at the least, 0 to 1.
    pub(super) alcohol: AlcoholLeft,
}

/// A card that goes in, with the grams of it.
pub struct Inside<'a> {
    inputs: &'a DateInputs,
    grams: f64,
    total: f64,
}

impl<'a> Inside<'a> {
    /// A card that goes in, as it was seen itself.
    pub fn new(inner: &InnerCard, inputs: &'a DateInputs) -> Self {
        Self { inputs, grams: inner.grams, total: inner.card.bottled().total_grams() }
    }

    fn share(&self) -> f64 {
        if self.total > 0.0 { self.grams / self.total } else { 0.0 }
    }
}

/// The inputs; what is not stated or not known is left unknown.
pub fn date_inputs(
    solved: &Solved,
    house: &House,
    batch: &JudgedBatch,
    facts: &Facts,
    inside: &[Inside<'_>],
) -> DateInputs {
    let (card, bottled) = (&solved.card, solved.bottled());
    let dried = is_dried(solved);
    let made = batch.liquid.as_ref().unwrap_or(bottled);
    let liquid = &dated_liquid(made, bottled, dried);
    let total = bottled.total_grams() - (made.total_grams() - liquid.total_grams());
    let own = unlisted(&solved.stages, house, inside);
    let value = |kind| value_of(kind, liquid);
    let (abv_pct, brix) = (batch.abv_pct.unwrap_or(0.0), value(TargetKind::Brix));
    let sugar_g_l = value(TargetKind::Sugar).unwrap_or(0.0);
    let unweighed_alkali = method::unweighed_alkali(solved);
    let bounds = match unweighed_alkali {
        // of an alkali that nobody weighed nobody knows how much of the acid it takes
        Some(_) => PhBounds::default(),
        None => ph::bounds_of(liquid, own, sugar_g_l, abv_pct),
    };
    let (ph_up, read) = ph::read(bounds, &batch.measured, brix.unwrap_or(0.0), abv_pct);
    let share = |grams: f64| if total > 0.0 { 100.0 * grams / total } else { 0.0 };
    // a strength that was read is of what is left
    let of_inside: Vec<AlcoholLeft> = inside.iter().map(|i| i.inputs.alcohol).collect();
    let alcohol = if batch.abv_read { AlcoholLeft::ALL } else { AlcoholLeft::of(solved, house, &of_inside) };
    // a Brix that was read of the whole says how sweet it is, whatever went in
    let lent_sugar_g = if batch.measured.brix.is_some() { 0.0 } else { own.lent_sugar_g };
    let (aw, aw_doubt) =
        water_activity_with_doubt(&without_sugar(liquid, lent_sugar_g), (brix, batch.brix_doubt), aw_doubt(solved));
    let mut product = Product {
        abv_pct,
        abv_doubt: batch.abv_doubt + (1.0 - alcohol.sure) * abv_pct,
        sugar_g_l,
        brix,
        aw,
        aw_doubt,
        ph_up,
        salt_pct: share(liquid.grams_of(Component::Salt)),
        acetic_pct: share(liquid.grams_of(Component::Acetic)),
        acid_g_l: acid_g_l(liquid),
        contents: contents(solved, facts, inside, dried),
        opened: card.keep.opened == Some(true),
        closed: if dried { card.keep.closed == Some(true) } else { card.keep.closed != Some(false) },
        water_pct: dried.then(|| share(liquid.grams_of(Component::Water))),
        ..Product::default()
    };
    let so_far = |stages: &[SolvedStage]| unlisted(stages, house, inside);
    let put_in_cold = put_in_cold(solved, house);
    let heating = heating(card).filter(|_| put_in_cold.is_empty());
    product.stages = stood::stood(solved, &product, house, so_far);
    let is_killed = five_log(&product, heating.as_ref());
    if !is_killed && !hot(&card.last) {
        let most = inside.iter().filter(|i| i.grams >= MOST_OF_IT * total);
        product.stages.extend(stood::warm_before(most.map(|i| &i.inputs.product)));
    }
    fill(&mut product, solved, inside, (is_killed, &put_in_cold));
    juice(&mut product, solved, inside, (is_killed, total), so_far);
    let put_in_cold = put_in_cold.into_iter().map(|part| part.label.clone()).collect();
    DateInputs { product, bounds, read, unweighed_alkali, unlisted: own, alcohol, heating, put_in_cold }
}

fn ingredients(solved: &Solved) -> impl Iterator<Item = (&SolvedPart, &Ingredient)> {
    solved.stages.iter().flat_map(|s| &s.parts).filter(|p| p.mass_g > 0.0).filter_map(with_ingredient)
}

fn with_ingredient(part: &SolvedPart) -> Option<(&SolvedPart, &Ingredient)> {
    Some((part, part.found.what.ingredient()?))
}

fn unlisted(stages: &[SolvedStage], house: &House, inside: &[Inside<'_>]) -> Unlisted {
    let own = stages.iter().flat_map(|s| &s.parts).map(|part| Unlisted::of_part(part, house));
    let of_inside = inside.iter().map(|i| i.inputs.unlisted.times(i.share()));
    own.chain(of_inside).fold(Unlisted::default(), Unlisted::plus)
}

/// Whether its solids were weighed as sugar and salt, or come from a range.
fn aw_doubt(solved: &Solved) -> f64 {
    let weighed = ingredients(solved).all(|(_, i)| {
        matches!(i.kind, Some(Kind::Sugar | Kind::Salt | Kind::Water | Kind::Acid | Kind::Spirit))
            || i.per_gram.solids_grams() < 0.01
    });
    if weighed && solved.inner.is_empty() { AW_DOUBT.0 } else { AW_DOUBT.1 }
}

fn acid_g_l(liquid: &Mixture) -> f64 {
    let density = liquid.density(celsius(20.0)).map(|d| crate::units::in_kg_per_m3(d.value)).unwrap_or(1000.0);
    let total = liquid.total_grams();
    if total > 0.0 { liquid.grams_of_all(&Component::ACIDS) / total * density } else { 0.0 }
}

/// No liquid is left, and it was fruit, peel or herb. What it is called does not matter.
fn is_dried(solved: &Solved) -> bool {
    let out = solved.bottled();
    let liquid = out.grams_of_all(&[Component::Water, Component::Ethanol, Component::Glycerol]);
    let plants: f64 = ingredients(solved)
        .filter(|(p, i)| p.feed.holds.is_none() && nature::of(i).plant && i.kind.is_some())
        .map(|(p, _)| p.mass_g)
        .sum();
    let weighed: f64 = solved.last().parts.iter().map(|p| p.mass_g).sum();
    liquid <= DRIED_LIQUID * out.total_grams() && plants > 0.5 * weighed
}

/// What is in it, from the kinds, tags and allergens of its ingredients, and from the cards inside it.
fn contents(solved: &Solved, facts: &Facts, inside: &[Inside<'_>], dried: bool) -> Contents {
    let tagged = |tag: Tag| facts.tags.names(tag);
    let perhaps =
        facts.allergens.present.iter().chain(facts.allergens.unsure.difference(&facts.fined)).filter_map(Open::known);
    let families: Vec<Allergen> = perhaps.map(Allergen::family).collect();
    let allergen = |family: Allergen| families.contains(&family);
    let any = |test: fn(&Ingredient) -> bool| ingredients(solved).any(|(_, i)| test(i));
    let of_inside = |test: fn(&Contents) -> bool| inside.iter().any(|i| test(&i.inputs.product.contents));
    let plain = |kind: Option<Kind>| matches!(kind, Some(Kind::Water | Kind::Salt | Kind::Acid | Kind::Spirit));
    let serving = solved.card.serving.as_ref().map(|s| in_millilitres(s.value));
    let fresh = tagged(Tag::FreshPlant) || tagged(Tag::Mint);
    Contents {
        plant: any(|i| nature::of(i).plant) || fresh || of_inside(|c| c.plant),
        nutrient: any(|i| nature::of(i).nutrient)
            || tagged(Tag::RawJuice)
            || tagged(Tag::Tea)
            || tagged(Tag::Coffee)
            || of_inside(|c| c.nutrient),
        nut: any(|i| i.kind == Some(Kind::Nut) || is_oily(i))
            || tagged(Tag::Nut)
            || [Allergen::TreeNuts, Allergen::Peanut]
                .into_iter()
                .any(|nut| allergen(nut) && is_nutty(solved, facts, nut))
            || of_inside(|c| c.nut),
        wine: any(|i| matches!(i.kind, Some(Kind::Wine | Kind::Fortified)))
            || tagged(Tag::Wine)
            || of_inside(|c| c.wine),
        coffee: any(|i| i.kind == Some(Kind::Coffee)) || tagged(Tag::Coffee) || of_inside(|c| c.coffee),
        peel: any(|i| i.kind == Some(Kind::Peel)) || of_inside(|c| c.peel),
        no_food: ingredients(solved).all(|(_, i)| plain(i.kind))
            && inside.iter().all(|i| i.inputs.product.contents.no_food),
        drops: serving.is_some_and(|ml| ml <= DROPS_ML),
        dried,
        in_oil: tagged(Tag::OilInfusion) || of_inside(|c| c.in_oil),
        low_acid_plant: any(|i| matches!(i.kind, Some(Kind::Vegetable | Kind::Herb | Kind::Legume)))
            || fresh
            || of_inside(|c| c.low_acid_plant),
        meat_or_fish: [Allergen::Fish, Allergen::Crustaceans, Allergen::Molluscs].into_iter().any(allergen),
        dairy: dairy(
            solved,
            tagged(Tag::Dairy),
            allergen(Allergen::Milk),
            inside.iter().filter_map(|i| i.inputs.product.contents.dairy).collect(),
        ),
        egg: egg(solved, facts, allergen(Allergen::Egg)),
    }
}

/// Sesame, flax, chia: what is ground and steeped of them is an emulsion of their oil, as that of a nut is, and the milk of a
/// plant is one already. A fifth of oil or more in a seed, a hundredth in a milk (ours; seeds have 0.3 to 0.5, almonds 0.5,
/// canned coconut milk 0.21, oat drink 0.015, coconut water 0.002).
fn is_oily(i: &Ingredient) -> bool {
    let oil = i.per_gram.grams_of(Component::Fat);
    match i.kind {
        Some(Kind::Seed) => oil >= 0.2,
        Some(Kind::PlantMilk) => oil >= 0.01,
        _ => false,
    }
}

/// Whether what brings a nut as an allergen brings its oil: an extract or a liqueur is clear of that. What goes in with a card
/// that goes in has its own answer.
fn is_nutty(solved: &Solved, facts: &Facts, nut: Allergen) -> bool {
    let is_of_it = |member: &Member| matches!(member, Member::Allergen(Open::Known(of)) if of.family() == nut);
    let from: Vec<&String> =
        facts.read_from.iter().filter(|(of, _)| is_of_it(of)).flat_map(|(_, names)| names).collect();
    if from.is_empty() {
        return true;
    }
    let is_clear = |i: &Ingredient| {
        let is_liqueur = i.kind.is_none() && i.per_gram.grams_of(Component::Ethanol) >= LIQUEUR_SPIRIT;
        is_liqueur || matches!(i.kind, Some(Kind::Extract | Kind::Liqueur | Kind::Bitters | Kind::Spirit))
    };
    let named = |part: &SolvedPart, i: &Ingredient| {
        i.own_names().chain([part.label.as_str(), part.of.as_str()]).any(|name| from.iter().any(|of| *of == name))
    };
    ingredients(solved).any(|(part, i)| !is_clear(i) && named(part, i))
}

/// Raw unless it is said of the egg that it is pasteurised, and by nothing denied or left open.
fn egg(solved: &Solved, facts: &Facts, allergen: bool) -> Option<Egg> {
    if !facts.tags.names(Tag::RawEgg) {
        return allergen.then_some(Egg::Pasteurised);
    }
    let eggs: Vec<_> = ingredients(solved).filter(|(_, i)| i.tags.contains(&Open::Known(Tag::RawEgg))).collect();
    let doubted = |name: &str| matches!(spelling::pasteurised(name), Some(Claim::Denied | Claim::Open));
    let pasteurised = |(part, egg): &(&SolvedPart, &Ingredient)| {
        egg.all_names().any(|name| spelling::pasteurised(name) == Some(Claim::Made))
            && !egg.all_names().any(doubted)
            && ![part.label.as_str(), part.of.as_str()].into_iter().any(doubted)
    };
    Some(if !eggs.is_empty() && eggs.iter().all(pasteurised) { Egg::Pasteurised } else { Egg::Raw })
}

/// How clean it is filled: the worst of its unheated parts, unless the whole is heated.
fn fill(
    product: &mut Product,
    solved: &Solved,
    inside: &[Inside<'_>],
    (is_killed, put_in_cold): (bool, &[&SolvedPart]),
) {
    let card = &solved.card;
    let mut worst = Filled::HotClean;
    // filled hot by its own word alone: what its pan was heated to is not said to be less, and what nobody heats is not hot
    let is_heat_open = card.last.heated.is_none() && card.last.not_heated.is_none();
    let filled_hot = card.keep.hot_filled == Some(true) && is_heat_open;
    let whole = hot(&card.last) || filled_hot;
    if !whole {
        for (_, made) in card.all_stages().zip(&solved.stages).filter(|(stage, _)| !hot(stage)) {
            for (_, i) in made.parts.iter().filter_map(with_ingredient) {
                worst = worst.max(nature::of(i).unheated);
            }
        }
        for inner in inside {
            worst = worst.max(inner.inputs.product.filled);
        }
    }
    for (_, i) in put_in_cold.iter().filter_map(|part| with_ingredient(part)) {
        worst = worst.max(nature::of(i).unheated);
    }
    product.filled = if is_killed && card.keep.is_closed_hot() { Filled::HotClosed } else { worst };
    if product.contents.egg == Some(Egg::Raw) && is_killed {
        product.contents.egg = Some(Egg::Pasteurised);
    }
}

/// A raw juice by its larder entry or by what it is called.
pub(crate) fn is_raw_juice(part: &SolvedPart, i: &Ingredient) -> bool {
    let names = || i.own_names().chain([part.label.as_str(), part.of.as_str()]);
    let by_name = names().any(|name| safety::names::find(name).tags.contains(&Tag::RawJuice));
    i.tags.contains(&Open::Known(Tag::RawJuice)) || by_name
}

/// Whether alcohol keeps what is in the pan of a stage: by itself, and with the acid that was put in.
fn kept_by_alcohol(made: &SolvedStage, unlisted: Unlisted) -> [bool; 2] {
    let of = |kind| value_of(kind, &made.course.combined).unwrap_or(0.0);
    let abv = of(TargetKind::Abv);
    let ph_up = ph::bounds_of(&made.course.combined.dissolved(), unlisted, of(TargetKind::Sugar), abv).up;
    [alcohol_keeps(abv, None, 1.0), alcohol_keeps(abv - LEAST_ABV_DOUBT, ph_up, 1.0)]
}

/// Raw juice by share, through the cards inside; raw fruit counts the water that it gives. Heated as its pH asks it is raw no
/// more, and what is left of it is plant.
fn juice(
    product: &mut Product,
    solved: &Solved,
    inside: &[Inside<'_>],
    (is_killed, total): (bool, f64),
    so_far: impl Fn(&[SolvedStage]) -> Unlisted,
) {
    let (mut raw, mut sweet, mut bottled) = (0.0, 0.0, 0.0);
    for (place, (stage, made)) in solved.card.all_stages().zip(&solved.stages).enumerate() {
        let [strong, with_acid] = kept_by_alcohol(made, so_far(&solved.stages[..=place]));
        for (at, part) in made.parts.iter().enumerate() {
            let Some((part, i)) = with_ingredient(part) else { continue };
            let is_raw = is_raw_juice(part, i);
            // what is steeped where alcohol holds growth back is not pressed: what it gives up is wine or spirit too
            let is_strained = part.feed.holds.is_some() && !made.pressed.contains(&at);
            let steeped = i.kind == Some(Kind::Fruit) && (strong || with_acid && is_strained);
            let pressed = matches!(i.kind, Some(Kind::Fruit | Kind::Puree)) && !hot(stage) && !steeped;
            let grams = if is_raw && !part.found.form.eq(&crate::larder::Form::Solid) {
                part.mass_g
            } else if is_raw || pressed {
                part.mass_g * i.per_gram.grams_of(Component::Water)
            } else {
                0.0
            };
            raw += grams;
            if i.kind == Some(Kind::SweetCitrusJuice) {
                sweet += grams;
            }
            if matches!(i.kind, Some(Kind::Juice | Kind::SweetCitrusJuice)) && !is_raw {
                bottled += part.mass_g;
            }
        }
    }
    for inner in inside {
        let of = &inner.inputs.product;
        raw += inner.grams * of.raw_juice;
        bottled += inner.grams * of.pasteurised_juice;
        if of.sweet_citrus {
            sweet += inner.grams * of.raw_juice;
        }
    }
    if total <= 0.0 || product.contents.dried {
        return;
    }
    if is_killed {
        product.contents.plant |= raw > 0.0;
        return;
    }
    product.raw_juice = (raw / total).min(1.0);
    product.pasteurised_juice = (bottled / total).min(1.0);
    product.sweet_citrus = raw > 0.0 && sweet >= 0.999 * raw;
    if raw > 0.0 {
        product.filled = Filled::Raw;
    }
}
