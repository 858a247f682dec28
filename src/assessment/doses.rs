//! What is dosed by weight and can hurt, or preserves: by the share of the batch that one measure is.

use crate::larder::{Ingredient, Larder, Origin};
use crate::mixture::{Component, alcohol};
use crate::properties::{TargetKind, value_of};
use crate::safety::doses::{self, Preservative, QuinineSource, Salt};
use crate::safety::overdoses::overdoses;
use crate::safety::{Fact, Facts, Member};
use crate::solver::resolve::Material;
use crate::solver::target::volume_ml;
use crate::solver::{Solved, SolvedPart};
use crate::units::{Abv, Mass, MassFraction, Ph, grams, in_grams, kg_per_m3};
use crate::vocabulary::{Allergen, Kind, Tag};

use super::ingredients::{grams_tagged, tagged};
use super::intake::{doses as intakes, servings};

/// A gram of something that is weighed as a powder holds at most this much of water and spirit (ours): above it, what
/// bears the name of a salt may be a solution of it, of which nobody said how strong.
const POWDER_LIQUID: f64 = 0.1;

/// From this much sulphur dioxide on it is known to be declared, however much more there may be, in mg/kg.
const SURELY_DECLARED_MG_KG: f64 = 10.1;

/// The most quinine that a carbonated drink is sold with, mg/kg (21 CFR 172.575).
const TONIC_MG_KG: f64 = 83.0;

/// The largest glass that is drunk at once (ours), ml.
const LARGEST_GLASS_ML: f64 = 500.0;

/// Fills in the doses, of a drink by its glasses; what has no measure or no assay stays unknown.
pub(super) fn fill(facts: &mut Facts, solved: &Solved, glasses: Option<f64>) {
    let measures = glasses.or_else(|| servings(solved));
    let cassia = grams_tagged(solved, &[Tag::Cassia]);
    let beans = grams_tagged(solved, &BESIDE_CASSIA);
    if cassia > 0.0 || beans > 0.0 {
        let in_measure = |n: f64| {
            let content = MassFraction::new(doses::COUMARIN_IN_CASSIA)?;
            Some(1000.0 * in_grams(doses::coumarin_per_serving(grams(cassia), content, None, n)?))
        };
        let beside = coumarin_beside_cassia(solved, beans);
        let told = measures.and_then(in_measure).zip(beside).map(|(bark, beside)| bark + beside);
        // of which the largest glass holds little enough, nobody need say how much is served
        let of_glass = || in_measure((volume_ml(solved.bottled())? / LARGEST_GLASS_ML).max(1.0));
        let is_little = |mg: &f64| beans == 0.0 && *mg <= 1e6 * doses::COUMARIN_DAILY * doses::BODY_MASS_KG;
        facts.coumarin_mg_per_serving = told.or_else(|| of_glass().filter(is_little)).into();
    }
    let nutmeg = grams_tagged(solved, &[Tag::Nutmeg, Tag::Mace]);
    if nutmeg > 0.0 {
        // a serving holds no more than the whole batch, which answers where that is little
        let most = measures.map(|n| nutmeg / n).or(Some(nutmeg).filter(|grams| *grams < MUCH_NUTMEG));
        facts.nutmeg_g_per_serving = most.into();
    }
    mark_overdoses(facts, solved, measures);
    if facts.tags.may_hold(Tag::Corrosive) {
        facts.corrosive_g = Fact::Known(grams_tagged(solved, &[Tag::Corrosive]));
    }
    strongest_spirit(facts, solved);
    facts.so2_mg_kg = sulphur_dioxide(facts, solved);
    preservatives(facts, solved);
    facts.quinine_mg_kg = quinine(solved);
}

/// Grams of nutmeg of which nobody takes harm (the caution of a serving begins there).
const MUCH_NUTMEG: f64 = 1.0;

/// Marks what a serving holds so much of that it harms.
fn mark_overdoses(facts: &mut Facts, solved: &Solved, servings: Option<f64>) {
    let Some(servings) = servings else { return ask_serving(facts, solved) };
    let is_there = |tag: Tag| match tag {
        Tag::Acid | Tag::MineralSalt => true,
        Tag::Caffeine => BRING_CAFFEINE.iter().any(|tag| facts.tags.names(*tag)),
        tag => facts.tags.names(tag),
    };
    let rows: Vec<_> = overdoses().filter(|row| is_there(row.tag)).collect();
    for row in rows {
        let is_called = |i: &Ingredient| i.all_names().any(|name| row.is_called(name));
        let of_it: Vec<_> = tagged(solved, &[row.tag]).into_iter().filter(|(i, _)| is_called(i)).collect();
        let grams = match row.tag {
            Tag::Acid => solved.bottled().grams_of_all(&Component::ACIDS) / servings,
            Tag::Caffeine => caffeine_mg(solved) / 1000.0,
            // salt is salt in a brine too
            Tag::MineralSalt if row.words.is_empty() => {
                let named = of_it.iter().map(|(_, grams)| grams).sum::<f64>();
                named.max(solved.bottled().grams_of(Component::Salt)) / servings
            }
            _ => of_it.iter().map(|(_, grams)| grams).sum::<f64>() / servings,
        };
        if grams >= row.grams {
            facts.tags.add(Tag::Overdose);
            facts.tags.add(row.tag);
            let names = of_it.into_iter().map(|(i, _)| i.name.clone());
            facts.read_from.entry(Member::Tag(Tag::Overdose)).or_default().extend(names);
        }
    }
}

/// So many harmful doses in a batch, and nobody says how much of it is served (ours).
const MANY_DOSES: f64 = 10.0;

/// Of what harms under a name of its own, potassium and the strong alkalis, it is asked how much is served: a saline of table salt is
/// dosed by the drop, and one that looks like it may be poured.
fn ask_serving(facts: &mut Facts, solved: &Solved) {
    for row in overdoses().filter(|row| !row.words.is_empty()) {
        let is_called = |i: &Ingredient| i.all_names().any(|name| row.is_called(name));
        let of_it: Vec<_> = tagged(solved, &[row.tag]).into_iter().filter(|(i, _)| is_called(i)).collect();
        let grams: f64 = of_it.iter().map(|(_, grams)| grams).sum();
        if let Some((first, _)) = of_it.first().filter(|_| grams >= MANY_DOSES * row.grams) {
            let most = row.grams;
            let question =
                format!("how much of it is served (serving = \"2 ml\"): {most} g of `{}` at once harm", first.name);
            facts.doubt_tag(Tag::Overdose, question);
        }
    }
}

/// What brings caffeine, by the table of contents.
pub(super) const BRING_CAFFEINE: [Tag; 5] = [Tag::Coffee, Tag::Tea, Tag::ColaNut, Tag::Guarana, Tag::Mate];

/// Milligrams of caffeine in a serving, at the most that the table of contents says of what brings it.
fn caffeine_mg(solved: &Solved) -> f64 {
    intakes(solved)
        .iter()
        .filter(|intake| BRING_CAFFEINE.contains(&intake.from))
        .filter_map(|intake| intake.mg_per_serving)
        .sum()
}

/// What brings coumarin beside the bark that is called cassia.
const BESIDE_CASSIA: [Tag; 2] = [Tag::Tonka, Tag::Woodruff];

/// Milligrams of it in a serving, at the most that the table of contents says of the dry plant; `None` where some of these grams are
/// a drink or an extract, of which it says nothing.
fn coumarin_beside_cassia(solved: &Solved, grams: f64) -> Option<f64> {
    let told: Vec<_> = intakes(solved).into_iter().filter(|intake| BESIDE_CASSIA.contains(&intake.from)).collect();
    let weighed: f64 = told.iter().map(|intake| intake.grams).sum();
    told.iter().map(|intake| intake.mg_per_serving).sum::<Option<f64>>().filter(|_| weighed >= grams * (1.0 - 1e-9))
}

/// The strongest of the spirits that are poured, and how much of it. The last product may be far weaker: what is poured
/// is what burns. A drink, and a batch of it, is poured from bottles that were made another day, another batch may be made from its
/// inner cards now.
fn strongest_spirit(facts: &mut Facts, solved: &Solved) {
    let is_drink = solved.card.is_drink() || solved.card.pours.is_some();
    let cards = match is_drink {
        true => vec![(solved, 1.0)],
        false => solved.with_inner(),
    };
    let parts =
        cards.into_iter().flat_map(|(card, share)| card.stages.iter().flat_map(|s| &s.parts).map(move |p| (p, share)));
    let poured = parts.filter(|(part, _)| is_drink || matches!(part.found.what, Material::Ingredient(_)));
    let of = |(part, share): (&SolvedPart, f64)| {
        let abv = alcohol::solvent_abv(&part.found.per_gram).get();
        Some((abv, part.volume_ml()? * share)).filter(|(abv, _)| *abv > 0.0)
    };
    let strongest = poured.filter_map(of).max_by(|a, b| a.0.total_cmp(&b.0));
    let (abv, ml) = strongest.unwrap_or((0.0, 0.0));
    (facts.strongest_abv, facts.spirit_ml) = (Fact::Known(abv), Fact::Known(ml));
}

/// Which of a list of salts an ingredient is, weighed as it is.
fn weighed_as<T: crate::vocabulary::Word>(ingredient: &Ingredient) -> Option<T> {
    let gram = &ingredient.per_gram;
    let is_powder = gram.grams_of(Component::Water) + gram.grams_of(Component::Ethanol) <= POWDER_LIQUID;
    doses::named(ingredient.all_names()).filter(|_| is_powder)
}

/// The sulphur dioxide of the metabisulphite that is weighed in, if all of it stays; what else brings sulphites brings an
/// amount that nobody knows.
fn sulphur_dioxide(facts: &Facts, solved: &Solved) -> Fact<f64> {
    if !facts.allergens.may_hold(Allergen::Sulphites) {
        return Fact::Known(0.0);
    }
    let salt = |i: &Ingredient| {
        let is_source = |salt: &Salt| matches!(salt, Salt::PotassiumMetabisulphite | Salt::SodiumMetabisulphite);
        weighed_as::<Salt>(i).filter(is_source)
    };
    let mut gives = grams(0.0);
    let mut only_salts = !facts.allergens.open && !facts.allergens.unsure.contains(&Allergen::Sulphites.into());
    for (made, share) in solved.with_inner() {
        for part in made.stages.iter().flat_map(|stage| &stage.parts) {
            let Material::Ingredient(ingredient) = &part.found.what else { continue };
            match salt(ingredient) {
                Some(salt) => gives += salt.free_acid(grams(part.mass_g * share)),
                None => only_salts &= !may_bring_sulphites(ingredient, &part.label),
            }
        }
    }
    match doses::mg_per_kg(gives, solved.bottled().mass()) {
        Fact::Known(mg) if only_salts || mg >= SURELY_DECLARED_MG_KG => Fact::Known(mg),
        _ => Fact::Unknown,
    }
}

/// By any of its names, the one on the card too.
fn may_bring_sulphites(ingredient: &Ingredient, label: &str) -> bool {
    let mut of_it = Facts::of_nothing();
    let names: Vec<&str> = ingredient.all_names().chain([label]).collect();
    of_it.add_ingredient(&names, &ingredient.tags, &ingredient.allergens);
    of_it.allergens.names(Allergen::Sulphites)
}

fn preservatives(facts: &mut Facts, solved: &Solved) {
    let liquid = solved.bottled();
    // Counted as the acid itself, the most that it can be, unless a name says which salt it is.
    let as_acid = |tag: Tag, salt: Salt| -> f64 {
        let is_salt = |i: &Ingredient| doses::named::<Salt>(i.all_names()) == Some(salt);
        let acid = |i: &Ingredient, g| if is_salt(i) { in_grams(salt.free_acid(grams(g))) } else { g };
        tagged(solved, &[tag]).into_iter().map(|(i, g)| acid(i, g)).sum()
    };
    let sorbate = as_acid(Tag::Sorbate, Salt::PotassiumSorbate);
    let benzoate = as_acid(Tag::Benzoate, Salt::SodiumBenzoate);
    if sorbate > 0.0 {
        facts.sorbic_mg_kg = doses::mg_per_kg(grams(sorbate), liquid.mass());
    }
    if benzoate > 0.0 {
        facts.benzoic_mg_kg = doses::mg_per_kg(grams(benzoate), liquid.mass());
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
        let share = Ph::new(ph).and_then(|ph| acid.active_share(ph).ok());
        facts.active_pct = share.map(|share| 100.0 * share.value).into();
    }
}

/// Quinine by weight: as the salt that its name tells, else as the base. Of bark there is no figure.
fn quinine(solved: &Solved) -> Fact<f64> {
    if grams_tagged(solved, &[Tag::Cinchona]) > 0.0 {
        return QuinineSource::Bark.quinine_mg_kg(grams(0.0), solved.bottled().mass());
    }
    let sources = tagged(solved, &[Tag::Quinine]);
    // Tonic water is bought with no more in it than its maker may put there. Of a bought aperitif or bitters no figure is
    // known, and it counts as that (ours): its maker answers for the bottle, and that it holds quinine is said all the same.
    let is_sold = |i: &Ingredient| {
        let kinds = [Kind::Soda, Kind::Liqueur, Kind::Bitters, Kind::Fortified];
        i.origin == Origin::BuiltIn && i.kind.is_some_and(|kind| kinds.contains(&kind))
    };
    let bought = |i: &Ingredient| is_sold(i) || Larder::built_in().find(&i.name).is_some_and(is_sold);
    let is_dry = |i: &Ingredient| i.per_gram.grams_of(Component::Water) < 0.1;
    let quinine = |(i, g): &(&Ingredient, f64)| match bought(i) {
        true => Some(grams(g * TONIC_MG_KG * 1e-6)),
        // dry, and of which salt nobody says: there is no more quinine in any than in the base
        false => weighed_as::<QuinineSource>(i).or(is_dry(i).then_some(QuinineSource::Base))?.quinine(grams(*g)),
    };
    let all: Option<Vec<Mass>> = sources.iter().map(quinine).collect();
    match all {
        Some(all) if !all.is_empty() => {
            let total = all.into_iter().fold(grams(0.0), |sum, mass| sum + mass);
            doses::mg_per_kg(total, solved.bottled().mass())
        }
        _ => Fact::Unknown,
    }
}
