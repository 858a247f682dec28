//! The facts that cautions are judged by, from a solved card. Each variable has one origin
//! ([`crate::safety::variables::VARIABLES`]); what is not stated stays unknown.

use uom::si::time::{hour, minute};

use crate::card::TargetKind;
use crate::house::House;
use crate::larder::Ingredient;
use crate::mixture::{Component, Mixture, alcohol, flash_point};
use crate::properties::value_of;
use crate::safety::doses::{self, Preservative, QuinineSource, Salt};
use crate::safety::{self, Caution, Fact, Facts, Market, Members, Tcs};
use crate::shelf_life::screen::{self, ScreenClass};
use crate::shelf_life::{Product, data};
use crate::solver::Solved;
use crate::solver::target::volume_ml;
use crate::solver::vessel::vessel_l;
use crate::units::{Abv, MassFraction, degrees_celsius, grams, in_grams, in_millilitres, kg_per_m3};
use crate::vocabulary::{Container, ProductClass, StatedProcess, Word};

use super::product::heated_stages;
use super::{DatedStore, storage};

/// At and above this a pan is boiling or close to it, °C: what has been there must be cooled with care.
const BOIL_C: f64 = 90.0;

/// What the ingredients bring: tags and allergens by their larder entries and by their names. What the product is
/// called says nothing of what is in it ("Night porter bitters").
pub fn of_parts(solved: &Solved, house: &House) -> Facts {
    let mut facts =
        Facts { tags: Members::none(), allergens: Members::none(), process: Members::none(), ..Facts::default() };
    facts.market = house.settings.markets.iter().filter_map(|market| Market::from_code(&market.to_string())).collect();
    for part in solved.stages.iter().flat_map(|s| &s.parts) {
        if let crate::solver::resolve::Material::Ingredient(ingredient) = &part.found.what {
            let names: Vec<&str> =
                [part.label.as_str(), part.of.as_str()].into_iter().chain(ingredient.own_names()).collect();
            facts.add_ingredient(&names, &ingredient.tags, &ingredient.allergens);
            facts.allergens.open |= !ingredient.allergens_stated;
        }
    }
    method(&mut facts, solved);
    facts
}

/// What was computed of the product, and what its card says of how it is made.
pub fn of_product(facts: &mut Facts, solved: &Solved, house: &House, product: &Product) {
    let liquid = solved.bottled();
    let known = |value: Option<f64>| value.map_or(Fact::Unknown, Fact::Known);
    // What is dry has no pH to ask for, and counts as neutral: that earns nothing. What is only called dried may be wet.
    let ph = if liquid.is_dry() { Some((7.0, 0.0)) } else { product.ph.map(|ph| (ph.value.get(), ph.doubt)) };
    facts.ph = known(ph.map(|(value, _)| value));
    facts.ph_u = known(ph.map(|(_, doubt)| doubt));
    facts.aw = known(product.water_activity.map(|aw| aw.value.get()));
    facts.aw_u = known(product.water_activity.map(|aw| aw.doubt));
    facts.abv = known(product.abv.map(Abv::get));
    facts.brix = if liquid.is_dry() { Fact::Known(0.0) } else { known(product.brix.map(|b| b.get())) };
    if solved.card.class.as_ref().is_some_and(|c| c.value == ProductClass::DriedFruit) {
        facts.tags.add("dried");
    }
    heat_and_screen(facts, product);
    process(facts, solved);
    doses(facts, solved);
    facts.vessel_l = vessel(solved);
    let instruments = &house.settings.instruments;
    let finest = instruments.fine_scale.as_ref().unwrap_or(&instruments.scale);
    facts.scale_g = Fact::Known(in_grams(finest.step));
    let weighed = solved.stages.iter().flat_map(|s| &s.parts).filter(|p| p.stage().is_none() && p.mass_g > 0.0);
    facts.smallest_dose_g = weighed.map(|p| p.mass_g).reduce(f64::min).map_or(Fact::None, Fact::Known);
    facts.body_mass_kg = Fact::Known(doses::BODY_MASS_KG);
}

fn heat_and_screen(facts: &mut Facts, product: &Product) {
    let Some(tables) = data::tables() else { return };
    let word = |class| if class == ScreenClass::Pa { Tcs::Pa } else { Tcs::NonTcs };
    let screen = product.screen(tables);
    // Dried fruit lives by a dryness that was not measured: what the tables would say of it is not known.
    let dry_unread = facts.tags.present.contains("dried") && product.water_activity.is_none();
    facts.tcs = if dry_unread { Fact::Unknown } else { Fact::Known(word(screen.class)) };
    facts.tcs_no_acid = Fact::Known(word(screen::look_up(screen.table, None, product.cautious_aw())));
    let row = tables.heat.for_ph(product.cautious_ph());
    let heating = product.process.heating.as_ref();
    facts.heat_5log = Fact::Known(product.five_log(tables));
    facts.pasteurised = Fact::Known(product.pasteurised(tables));
    let hottest = heating.and_then(|curve| curve.0.first().copied()).map(|(_, t)| t);
    // What a hold must be follows from the pH: unknown, so is that.
    // Where the tables ask for no pH no spore can grow, and what is left to kill has its row of the highest pH.
    let no_acid_needed = facts.tcs_no_acid == Fact::Known(Tcs::NonTcs);
    let row_known = match (product.ph, no_acid_needed) {
        (Some(_), _) => row,
        (None, true) => tables.heat.severest_vegetative(),
        (None, false) => None,
    };
    facts.need_min = hottest.and_then(|t| row_known?.hold_min(t)).map_or(Fact::Unknown, Fact::Known);
}

/// What the fullest stage stands in: a usual vessel, and where none is large enough one that just holds it.
fn vessel(solved: &Solved) -> Fact<f64> {
    let just = Some(solved.fullest_l()).filter(|litres| *litres > 0.0);
    vessel_l(solved).or(just).map_or(Fact::Unknown, Fact::Known)
}

/// Words of a method that tell of a process; a step may also forbid it, so each only raises the question.
const METHOD_WORDS: &[(&str, &str)] = &[
    ("distil", "distil"),
    ("distill", "distil"),
    ("distilling", "distil"),
    ("distillation", "distil"),
    ("ferment", "ferment"),
    ("fermented", "ferment"),
    ("fermenting", "ferment"),
    ("fermentation", "ferment"),
    ("yeast", "ferment"),
    ("kombucha", "ferment"),
    ("scoby", "ferment"),
    ("tepache", "ferment"),
    ("tibicos", "ferment"),
    ("siphon", "pressure_infusion"),
    ("whipper", "pressure_infusion"),
    ("n2o", "pressure_infusion"),
    ("nitrous", "pressure_infusion"),
    ("vide", "sous_vide"),
    ("vide", "rop"),
    ("vacuum", "rop"),
    ("vac", "rop"),
];
/// Tags of things that a drink meets in its method rather than among its parts.
const METHOD_TAGS: &[&str] = &["copper_contact", "dry_ice", "liquid_nitrogen"];

/// Tags of things that a method may let into a drink without their being weighed; a step may also throw them away, so it
/// only raises the question.
const STEEPED_TAGS: &[&str] =
    &["stone_fruit_kernel", "toxic_plant", "controlled_plant", "cinchona", "tonka", "tobacco"];

/// What the steps, the name and the parts tell of how it is made.
fn method(facts: &mut Facts, solved: &Solved) {
    let steps =
        || solved.card.all_stages().flat_map(|stage| &stage.steps).chain(&solved.card.steps).map(String::as_str);
    let parts = solved.stages.iter().flat_map(|s| &s.parts).flat_map(|p| [p.label.as_str(), p.of.as_str()]);
    for text in steps().chain(parts).chain([solved.name.as_str()]) {
        let text = text.to_lowercase();
        let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).collect();
        for (_, process) in METHOD_WORDS.iter().filter(|(word, _)| words.contains(word)) {
            facts.process.doubt(*process);
        }
    }
    // Clause by clause: "freeze in dry, clean trays; add ice" is not of dry ice.
    let clauses = |text: &'_ str| -> Vec<String> {
        text.split([',', ';', '.', ':', '(', ')']).flat_map(|clause| safety::names::find(clause).tags).collect()
    };
    let of_steps: Vec<String> = steps().flat_map(clauses).collect();
    // What a note warns of is not what is done.
    let of_notes = solved.card.notes.iter().flat_map(|note| clauses(note));
    facts.tags.unsure.extend(of_steps.iter().filter(|tag| STEEPED_TAGS.contains(&tag.as_str())).cloned());
    facts.tags.present.extend(of_steps.into_iter().chain(of_notes).filter(|tag| METHOD_TAGS.contains(&tag.as_str())));
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
                |tag: &str, sure: bool| if sure { facts.process.add(tag) } else { facts.process.doubt(tag) };
            state("sealed", surely);
            match container {
                Some(Container::Glass) => state("sealed_glass", surely),
                Some(Container::Bag) => state("rop", false),
                Some(Container::Plastic) => {}
                None => state("sealed_glass", false),
            }
        }
    }
    match keep.hot_filled {
        Some(true) => facts.process.add("hot_fill"),
        Some(false) => {}
        None if solved.bottled().is_dry() => {}
        None => facts.process.doubt("hot_fill"),
    }
    let hottest =
        heated_stages(solved).filter_map(|(s, _)| s.heated).map(|h| degrees_celsius(h.value.to)).reduce(f64::max);
    let steams = solved.stages.iter().any(|s| s.lost.evaporated > 0.0) && !solved.bottled().is_dry();
    match hottest {
        Some(t) if t >= BOIL_C => facts.process.add("boil"),
        Some(_) => {}
        // Hot somehow, and the card does not say how hot.
        None if steams || keep.hot_filled == Some(true) => facts.process.doubt("boil"),
        None => {}
    }
    facts.liquid_temp_c = match hottest {
        Some(t) => Fact::Known(t),
        None if steams => Fact::Unknown,
        None => Fact::Known(20.0),
    };
    facts.hold_min =
        card.last.heated.and_then(|h| h.value.hold).map_or(Fact::Unknown, |hold| Fact::Known(hold.get::<minute>()));
    facts.hours_hot = match facts.hold_min {
        Fact::Known(min) => Fact::Known(min / 60.0),
        other => other,
    };
    for done in &card.process {
        facts.process.add(done.process().word());
        if *done == StatedProcess::SousVide {
            facts.process.doubt("rop");
        }
    }
    let parts = || solved.stages.iter().flat_map(|s| &s.parts);
    if parts().any(|p| p.feed.holds.is_some()) && solved.stages.iter().any(|s| alcohol(&s.course.combined)) {
        facts.process.add("infuse");
    }
    if parts().any(|p| alcohol(&p.found.per_gram)) {
        facts.process.add("blend");
    }
    if parts().any(|p| p.found.per_gram.is_acid()) {
        facts.process.add("acidified");
    }
    let flag = |stated: Option<bool>| stated.map_or(Fact::Unknown, Fact::Known);
    facts.sale = flag(keep.for_sale);
    facts.packaged = flag(keep.closed);
}

/// The ingredients that carry one of these tags, by their larder entry or by what they are called, with their grams.
pub(super) fn tagged<'a>(solved: &'a Solved, tags: &[&str]) -> Vec<(&'a Ingredient, f64)> {
    let is = |i: &Ingredient| {
        let by_name = i.own_names().flat_map(|n| safety::names::find(n).tags).any(|t| tags.contains(&t.as_str()));
        by_name || i.tags.iter().any(|t| tags.contains(&t.as_str()))
    };
    solved.ingredients().into_iter().filter(|(i, _)| is(i)).collect()
}

/// What is dosed by weight and can hurt: by the share of the batch that one measure is.
fn doses(facts: &mut Facts, solved: &Solved) {
    let liquid = solved.bottled();
    let total = liquid.mass();
    let grams_tagged = |tags: &[&str]| -> f64 { tagged(solved, tags).iter().map(|(_, g)| g).sum() };
    let measures = solved.card.serving.and_then(|s| Some(volume_ml(liquid)? / in_millilitres(s.value)));
    let cassia = grams_tagged(&["cassia"]);
    if cassia > 0.0 {
        let dose = measures.zip(MassFraction::new(doses::COUMARIN_IN_CASSIA));
        let coumarin = dose.and_then(|(n, content)| doses::coumarin_per_serving(grams(cassia), content, None, n));
        facts.coumarin_mg_per_serving = coumarin.map_or(Fact::Unknown, |g| Fact::Known(1000.0 * in_grams(g)));
    }
    let nutmeg = grams_tagged(&["nutmeg", "mace"]);
    if nutmeg > 0.0 {
        facts.nutmeg_g_per_serving = measures.map_or(Fact::Unknown, |n| Fact::Known(nutmeg / n));
    }
    if !facts.allergens.may_hold("sulphites") {
        facts.so2_mg_kg = Fact::Known(0.0);
    }
    // Counted as the acid itself, the most that it can be, unless a name says which salt it is.
    let as_acid = |tag: &str, salt: Salt, named: &[&str]| -> f64 {
        let is_salt =
            |i: &Ingredient| i.all_names().any(|name| named.iter().any(|words| name.to_lowercase().contains(words)));
        let acid = |i, g| if is_salt(i) { in_grams(salt.free_acid(grams(g))) } else { g };
        tagged(solved, &[tag]).into_iter().map(|(i, g)| acid(i, g)).sum()
    };
    let sorbate = as_acid("sorbate", Salt::PotassiumSorbate, &["potassium sorbate", "e202"]);
    let benzoate = as_acid("benzoate", Salt::SodiumBenzoate, &["sodium benzoate", "e211"]);
    if sorbate > 0.0 {
        facts.sorbic_mg_kg = doses::mg_per_kg(grams(sorbate), total);
    }
    if benzoate > 0.0 {
        facts.benzoic_mg_kg = doses::mg_per_kg(grams(benzoate), total);
    }
    let abv = value_of(TargetKind::Abv, liquid).and_then(Abv::new).or(Abv::new(0.0));
    let density = volume_ml(liquid).map(|ml| kg_per_m3(1000.0 * liquid.total_grams() / ml));
    if let Some((abv, density)) = abv.zip(density) {
        let both = sorbate > 0.0 && benzoate > 0.0;
        let limit = |acid| doses::preservative_limit_mg_kg(acid, &facts.market, abv, both, density);
        (facts.limit_sorbic, facts.limit_benzoic) = (limit(Preservative::Sorbic), limit(Preservative::Benzoic));
    }
    let acid = if benzoate > 0.0 { Preservative::Benzoic } else { Preservative::Sorbic };
    if let (Fact::Known(ph), true) = (facts.ph, sorbate + benzoate > 0.0) {
        let share = crate::units::Ph::new(ph).and_then(|ph| acid.active_share(ph).ok());
        facts.active_pct = share.map_or(Fact::Unknown, |share| Fact::Known(100.0 * share.value));
    }
    if grams_tagged(&["cinchona"]) > 0.0 {
        facts.quinine_mg_kg = QuinineSource::Bark.quinine_mg_kg(grams(0.0), total);
    }
}

/// Where it is kept, and for how long.
pub fn of_store(facts: &mut Facts, dated: &DatedStore) {
    facts.storage = Fact::Known(storage(&dated.store));
    facts.days = dated.days.map_or(Fact::Unknown, |days| Fact::Known(f64::from(days)));
    if dated.verdict.is_none() {
        // The clock stands still.
        facts.days = Fact::Known(0.0);
    }
}

/// What is heated in a stage is judged by that stage: spirit by its own strength, for the product may be far weaker (what
/// burns is the solvent, so sugar in the pan counts for nothing), and a long warm bath by its own temperature and time.
/// `product` tells what the product is by the tables.
pub fn of_heated_stages(solved: &Solved, house: &House, product: &Facts) -> Vec<Caution> {
    let last = solved.stages.len().saturating_sub(1);
    let mut all: Vec<Caution> = Vec::new();
    for (place, (stage, made)) in solved.card.all_stages().zip(&solved.stages).enumerate() {
        let abv = alcohol::solvent_abv(&made.course.combined);
        let mut facts = Facts {
            tags: Members::none(),
            allergens: Members::none(),
            process: Members::none(),
            market: house.settings.markets.iter().filter_map(|market| Market::from_code(&market.to_string())).collect(),
            ..Facts::default()
        };
        facts.abv = Fact::Known(abv.get());
        facts.conclude();
        facts.vessel_l = vessel(solved);
        match stage.heated {
            Some(heated) => {
                facts.process.add("heat");
                facts.liquid_temp_c = Fact::Known(degrees_celsius(heated.value.to));
                let hours = heated.value.hold.map(|hold| hold.get::<hour>());
                facts.hours_hot = hours.map_or(Fact::Unknown, Fact::Known);
                facts.tcs = product.tcs;
                if product.process.present.contains("sous_vide") {
                    facts.process.add("sous_vide");
                }
            }
            // The last stage of a card that is filled hot was heated, to what nobody says.
            None if place == last && solved.card.keep.hot_filled == Some(true) => facts.process.add("heat"),
            // Something made its water go, and the card does not say what.
            None if made.lost.evaporated > 0.0 => facts.process.doubt("heat"),
            None => {}
        }
        let flash = flash_point::of_strength(abv).ok();
        facts.flash_point_c = flash.map_or(Fact::Unknown, |t| Fact::Known(degrees_celsius(t.value)));
        let spirit = abv.get() > 0.0;
        let of_heat = |c: &Caution| match c.code {
            "hot_spirit" | "spirit_store" => spirit,
            "low_heat" => stage.heated.is_some(),
            _ => false,
        };
        for caution in safety::evaluate(&facts).into_iter().filter(of_heat) {
            match all.iter_mut().find(|known| known.code == caution.code) {
                Some(known) if !known.is_certain() => *known = caution,
                Some(_) => {}
                None => all.push(caution),
            }
        }
    }
    all
}
