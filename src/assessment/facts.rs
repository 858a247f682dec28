//! The facts that cautions are judged by, from a solved card. Each variable has one origin ([`crate::safety::facts`]);
//! what is not stated stays unknown.

use std::collections::BTreeMap;

use uom::si::time::minute;

use crate::card::Stage;
use crate::house::House;
use crate::larder::{Ingredient, Larder, Origin};
use crate::mixture::alcohol::ETHANOL_G_PER_ML;
use crate::mixture::{Component, Mixture};
use crate::safety::doses::BODY_MASS_KG;
use crate::safety::identity::is_known;
use crate::safety::{Fact, Facts, Member, Tcs, names};
use crate::shelf_life::hurdles::{DRIED_AW, Hurdles, Screened};
use crate::shelf_life::screen::{self, ScreenClass};
use crate::shelf_life::{Dairy, Filled, Product, data};
use crate::solver::resolve::Material;
use crate::solver::vessel::vessel_l;
use crate::solver::{Solved, SolvedPart, SolvedStage};
use crate::spelling::{self, Claim};
use crate::units::{degrees_celsius, in_grams};
use crate::vocabulary::{Allergen, Container, Kind, Open, Process, ProductClass, StatedProcess, Tag};

use super::product::DateInputs;
use super::{DatedStore, declared, doses, dressed, gas, heated, method, storage, working};

/// At and above this a pan is boiling or close to it, °C: what has been there must be cooled with care.
const BOIL_C: f64 = 90.0;

const EGG: Open<Allergen> = Open::Known(Allergen::Egg);

/// What it is called on its line and in the larder.
fn names_of<'a>(part: &'a SolvedPart, ingredient: &'a Ingredient) -> Vec<&'a str> {
    [part.label.as_str(), part.of.as_str()].into_iter().chain(ingredient.own_names()).collect()
}

/// What one ingredient brings by its entry and its names.
fn add_own(facts: &mut Facts, ingredient: &Ingredient, names: &[&str]) {
    // what the card calls it is no word of the house's larder
    let stated = ingredient.is_stated_distillate();
    let is_its_name = |name: &&str| Larder::built_in().find(name).is_some_and(|row| row.id == ingredient.id);
    let distilled: Vec<&str> = match ingredient.kind {
        Some(Kind::Spirit) if ingredient.origin == Origin::BuiltIn => {
            names.iter().copied().filter(is_its_name).collect()
        }
        _ => ingredient.own_names().filter(|_| stated).collect(),
    };
    facts.add_known(names, &ingredient.tags, &ingredient.allergens, &distilled);
}

/// From which lines each allergen of a card comes.
pub(crate) fn allergens_by_line(solved: &Solved) -> BTreeMap<String, Vec<String>> {
    let mut by_line: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for part in solved.stages.iter().flat_map(|stage| &stage.parts) {
        let Material::Ingredient(ingredient) = &part.found.what else { continue };
        let mut own = Facts::of_nothing();
        add_own(&mut own, ingredient, &names_of(part, ingredient));
        for allergen in own.allergens.present {
            let lines = by_line.entry(allergen.as_str().replace('_', " ")).or_default();
            if !lines.contains(&part.label) {
                lines.push(part.label.clone());
            }
        }
    }
    by_line
}

/// What the ingredients bring: tags and allergens by their larder entries and by their names. What the product is
/// called says nothing of what is in it ("Night porter bitters").
pub fn from_parts(solved: &Solved, house: &House) -> Facts {
    let mut facts = Facts::of_nothing();
    facts.market.clone_from(&house.settings.markets);
    let mut bought: Vec<(&String, &Ingredient)> = Vec::new();
    for part in solved.stages.iter().flat_map(|s| &s.parts) {
        if let Material::Ingredient(ingredient) = &part.found.what {
            let names = names_of(part, ingredient);
            add_own(&mut facts, ingredient, &names);
            facts.allergens.open |= !ingredient.allergens_stated;
            if may_be_raw_egg(ingredient, &names) {
                facts.doubt_tag(Tag::RawEgg, format!("whether the egg in `{}` is raw", part.label));
            }
            if has_unnamed_protein(ingredient, &names) {
                let question = format!(
                    "what the protein in `{}` is of (egg, milk, nut): give it the name of that, or tags = [\"identified\"] where it is no egg",
                    part.label
                );
                facts.doubt_tag(Tag::RawEgg, question);
            }
            bought.push((&part.of, ingredient));
        }
    }
    let dressed = dressed::of(solved, house);
    dressed.of_lots(house).for_each(|allergen| facts.allergens.add(allergen.clone()));
    for on_it in &dressed.brings {
        let names: Vec<&str> = on_it.own_names().collect();
        facts.add_ingredient(&names, &on_it.tags, &on_it.allergens);
        bought.push((&on_it.name, *on_it));
    }
    facts.allergens.open |= !dressed.unknown.is_empty();
    method::read(&mut facts, solved);
    let mut usual: Vec<(String, Open<Allergen>)> =
        dressed.usually.into_iter().map(|(said, of)| (said, Open::Known(of))).collect();
    for (said, on_it) in dressed.may_bring {
        bought.push((&on_it.name, on_it));
        let of_it = on_it.allergens.iter().flat_map(|usual| names::read_allergen(usual));
        usual.extend(of_it.map(|of| (said.clone(), of)));
    }
    for (said, allergen) in usual {
        // its own name has raised most of these questions
        if declared::is_doubted(&facts, &allergen) {
            continue;
        }
        let question = format!("whether \"{said}\" puts {} into it", Member::Allergen(allergen.clone()).said());
        facts.doubt_allergen(allergen, question);
    }
    bought.into_iter().for_each(|(name, of)| declared::doubt_finings(&mut facts, name, of));
    facts
}

/// What a house says brings egg, under a name that nobody knows, is not known to be cooked or bought pasteurised.
fn may_be_raw_egg(of: &Ingredient, names: &[&str]) -> bool {
    let brings_egg = || of.allergens.iter().flat_map(|stated| names::read_allergen(stated)).any(|of| of == EGG);
    let is_bought_made = of.per_gram.grams_of(Component::Ethanol) > 0.0
        || matches!(of.kind, Some(Kind::Egg | Kind::Fining | Kind::Wine | Kind::Fortified | Kind::Beer));
    let is_pasteurised = || names.iter().any(|name| spelling::pasteurised(name) == Some(Claim::Made));
    matches!(of.origin, Origin::House(_))
        && !is_bought_made
        && brings_egg()
        && !names.iter().any(|name| is_known(name))
        && !is_pasteurised()
}

/// More protein than this in a gram is of egg, milk, meat or a pulse, and of no juice, syrup or fruit, g (ours).
const MUCH_PROTEIN: f64 = 0.05;

/// A wet thing of which the house says that it holds protein, under a name that nobody knows, like nothing and of no allergen: egg is what
/// has that most often in a bar.
fn has_unnamed_protein(of: &Ingredient, names: &[&str]) -> bool {
    let is_wet = of.per_gram.grams_of(Component::Water) > 0.2;
    let is_identified = of.tags.contains(&Open::Known(Tag::Identified));
    matches!(of.origin, Origin::House(_))
        && of.kind.is_none()
        && of.allergens.is_empty()
        && is_wet
        && of.per_gram.grams_of(Component::Protein) > MUCH_PROTEIN
        && !is_identified
        && !names.iter().any(|name| is_known(name))
}

/// What it has at the most once all of its sugar is alcohol, % vol: Gay-Lussac's 2 × 46.07 g from 180.16 g of hexose (molar masses from memory).
/// What yeast takes for itself is more than the water that sucrose takes up first.
fn fermented_out(product: &Product) -> f64 {
    const ALCOHOL: f64 = 2.0 * 46.07 / 180.16;
    let made = product.sugar_g_l.max(0.0) * ALCOHOL / *ETHANOL_G_PER_ML / 10.0;
    (product.abv_pct + product.abv_doubt + made).min(100.0)
}

/// What was computed of the product, and what its card says of how it is made.
pub fn add_product(facts: &mut Facts, solved: &Solved, house: &House, inputs: &DateInputs, glasses: Option<f64>) {
    let product = &inputs.product;
    let liquid = solved.bottled();
    // What is dry has no pH to ask for, and counts as neutral: that earns nothing. What is only called dried may be wet.
    let hurdles = Hurdles::of(product);
    // The pH is known by its upper bound alone, which leaves no doubt on the side that matters.
    let ph_up = if liquid.is_dry() { Some(7.0) } else { product.ph_up };
    facts.ph = ph_up.into();
    facts.ph_u = ph_up.map(|_| 0.0).into();
    let (least, most) = DRIED_AW;
    let dried = ((least + most) / 2.0, (most - least) / 2.0);
    let aw = product.aw.map_or_else(|| product.is_dry_enough().then_some(dried), |aw| Some((aw, product.aw_doubt)));
    (facts.aw, facts.aw_u) = (aw.map(|(aw, _)| aw).into(), aw.map(|(_, doubt)| doubt).into());
    facts.abv = Fact::Known(hurdles.abv);
    // what is sweet, not what is dissolved: salt water feeds no yeast
    facts.brix = if liquid.is_dry() || product.sugar_g_l < 5.0 { Fact::Known(0.0) } else { product.brix.into() };
    facts.fermented_abv = Fact::Known(fermented_out(product));
    if matches!(product.contents.dairy, Some(Dairy::FatWashed | Dairy::Clarified)) {
        // what was lifted or strained off is in it as an allergen and no longer as milk
        facts.tags.present.remove(&Tag::Dairy);
        facts.tags.unsure.remove(&Tag::Dairy);
    }
    // What is only called dried is asked for its dryness too.
    let called_dried = solved.card.class.as_ref().is_some_and(|class| class.value == ProductClass::DriedFruit);
    if product.contents.dried || called_dried {
        facts.tags.add(Tag::Dried);
    } else {
        // a dried leaf makes no dried thing of what it is steeped in
        facts.tags.present.remove(&Tag::Dried);
        facts.tags.unsure.remove(&Tag::Dried);
    }
    heat_and_screen(facts, inputs, &hurdles);
    process(facts, solved);
    working::doubt(facts, solved, house);
    doses::fill(facts, solved, glasses);
    facts.vessel_l = vessel(solved);
    facts.gas_bar = gas::gas_bar(solved, house);
    let instruments = &house.settings.instruments;
    let finest = instruments.fine_scale.as_ref().unwrap_or(&instruments.scale);
    facts.scale_g = Fact::Known(in_grams(finest.step));
    let weighed = solved.stages.iter().flat_map(|s| &s.parts).filter(|p| p.stage().is_none() && p.mass_g > 0.0);
    facts.smallest_dose_g = weighed.map(|p| p.mass_g).reduce(f64::min).map_or(Fact::None, Fact::Known);
    facts.body_mass_kg = Fact::Known(BODY_MASS_KG);
}

fn heat_and_screen(facts: &mut Facts, inputs: &DateInputs, hurdles: &Hurdles) {
    let product = &inputs.product;
    let tables = data::tables();
    let word = |class| if class == ScreenClass::Pa { Tcs::Pa } else { Tcs::NonTcs };
    // Dried fruit lives by a dryness that was not measured: what the tables would say of it is not known.
    let dry_unread = facts.tags.has(Tag::Dried) && product.aw.is_none() && !product.is_dry_enough();
    // What has no food in it needs no control, whatever its acid.
    let class = if hurdles.screened == Screened::NoFood { ScreenClass::NonTcs } else { hurdles.by_table };
    // a bag is cooked in water
    facts.in_bath = Fact::Known([Process::WaterBath, Process::SousVide].iter().any(|done| facts.process.has(*done)));
    facts.no_food = Fact::Known(hurdles.screened == Screened::NoFood);
    facts.tcs = if dry_unread { Fact::Unknown } else { Fact::Known(word(class)) };
    facts.tcs_no_acid = Fact::Known(word(screen::look_up(hurdles.table, None, Some(hurdles.aw_up))));
    facts.heat_5log = Fact::Known(heated::five_log(product, inputs.heating.as_ref()));
    facts.pasteurised = Fact::Known(product.filled == Filled::HotClosed && !product.opened);
    let hottest = inputs.heating.as_ref().and_then(|curve| curve.0.first().copied()).map(|(_, t)| t);
    // What a hold must be follows from the pH: unknown, so is that. Where the tables ask for no pH no spore can grow, and
    // what is left to kill has its row of the highest pH.
    let no_acid_needed = facts.tcs_no_acid == Fact::Known(Tcs::NonTcs);
    let row_known = match (product.ph_up, no_acid_needed) {
        (Some(_), _) => tables.heat.for_ph(product.ph_up),
        (None, true) => tables.heat.severest_vegetative(),
        (None, false) => None,
    };
    facts.need_min = hottest.and_then(|t| row_known?.hold_min(t)).map_or(Fact::Unknown, Fact::Known);
}

/// What the fullest stage stands in: a usual vessel, and where none is large enough one that just holds it.
pub(super) fn vessel(solved: &Solved) -> Fact<f64> {
    let just = Some(solved.fullest_l()).filter(|litres| *litres > 0.0);
    vessel_l(solved).or(just).map_or(Fact::Unknown, Fact::Known)
}

/// How it is made and packed. What a card leaves open is in doubt, never absent.
fn process(facts: &mut Facts, solved: &Solved) {
    let card = &solved.card;
    let keep = &card.keep;
    let alcohol = |m: &Mixture| m.grams_of(Component::Ethanol) > 0.0;
    match (keep.closed, keep.container.map(|c| c.value)) {
        (Some(false), _) => {}
        // Dried fruit of 15 to 25 % water lies at a water activity of 0.60 to 0.75 (from memory), and what counts as dry
        // has less: too little for what a closed lid makes dangerous.
        _ if solved.bottled().is_dry() => {}
        (closed, container) => {
            let surely = closed == Some(true);
            let mut state =
                |process, sure: bool| if sure { facts.process.add(process) } else { facts.process.doubt(process) };
            state(Process::Sealed, surely);
            match container {
                Some(Container::Glass) => state(Process::SealedGlass, surely),
                Some(Container::Bag) => state(Process::ReducedOxygen, false),
                Some(Container::Plastic | Container::HotFillPlastic) => {}
                None => state(Process::SealedGlass, false),
            }
        }
    }
    if keep.container.is_some_and(|container| container.value != Container::Glass) {
        facts.process.add(Process::InPlastic);
    }
    if keep.is_hot_in_plastic() {
        facts.process.add(Process::HotInPlastic);
    }
    match keep.hot_filled {
        Some(true) => facts.process.add(Process::HotFill),
        Some(false) => {}
        None => {}
    }
    let hottest =
        heated_stages(solved).filter_map(|(s, _)| s.heated).map(|h| degrees_celsius(h.value.to)).reduce(f64::max);
    let steams = solved.stages.iter().any(|s| s.lost.evaporated > 0.0) && !solved.bottled().is_dry();
    // What nobody heats cannot be filled hot.
    if keep.hot_filled.is_none() && (hottest.is_some() || steams) && !solved.bottled().is_dry() {
        facts.process.doubt(Process::HotFill);
    }
    match hottest {
        Some(t) if t >= BOIL_C => facts.process.add(Process::Boil),
        Some(_) => {}
        // Hot somehow, and the card does not say how hot.
        None if steams || keep.hot_filled == Some(true) => facts.process.doubt(Process::Boil),
        None => {}
    }
    facts.liquid_temp_c = match hottest {
        Some(t) => Fact::Known(t),
        None if steams => Fact::Unknown,
        None => Fact::Known(20.0),
    };
    let hold = card.last.heated.and_then(|h| h.value.hold);
    (facts.hold_min, facts.hours_hot) =
        (hold.map(|hold| hold.get::<minute>()).into(), hold.map(|hold| hold.get::<minute>() / 60.0).into());
    for stated in &card.process {
        facts.process.add(stated.process());
        if *stated == StatedProcess::SousVide {
            facts.process.doubt(Process::ReducedOxygen);
        }
    }
    let parts = || solved.stages.iter().flat_map(|s| &s.parts);
    if parts().any(|p| p.feed.holds.is_some()) && solved.stages.iter().any(|s| alcohol(&s.course.combined)) {
        facts.process.add(Process::Infuse);
    }
    if parts().any(|p| alcohol(&p.found.per_gram)) {
        facts.process.add(Process::Blend);
    }
    if parts().any(|p| p.found.per_gram.is_acid()) {
        facts.process.add(Process::Acidified);
    }
    facts.from_cold = Fact::Known(takes_from_cold(solved));
    (facts.sale, facts.packaged) = (keep.for_sale.into(), keep.closed.into());
}

/// Whether a drink, or one inside it, is poured with milk, cream or egg: a strong glass keeps none of what stays in its carton.
fn takes_from_cold(solved: &Solved) -> bool {
    let is_fresh = |of: &Ingredient| {
        matches!(of.kind, Some(Kind::Dairy | Kind::Egg)) && of.per_gram.grams_of(Component::Ethanol) <= 0.0
    };
    let drinks = solved.with_inner().into_iter().filter(|(card, _)| card.card.is_drink());
    drinks.flat_map(|(card, _)| card.ingredients()).any(|(of, _)| is_fresh(of))
}

/// The stages that are heated, in the card's order, with what is in the pan.
fn heated_stages(solved: &Solved) -> impl Iterator<Item = (&Stage, &SolvedStage)> {
    solved.card.all_stages().zip(&solved.stages).filter(|(stage, _)| stage.heated.is_some())
}

/// Where it is kept, and for how long.
pub(crate) fn add_store(facts: &mut Facts, dated: &DatedStore, solved: &Solved) {
    facts.storage = Fact::Known(storage(&dated.store));
    facts.days = dated.days.map(f64::from).into();
    if dated.verdict.is_none() || solved.card.is_drink() {
        // The clock stands still; a drink is drunk at once, and a batch of it is a card of its own.
        facts.days = Fact::Known(0.0);
    }
}
