//! The gas that a carbonate gives off with the acid of a card, where it is closed before that has gone.

use crate::house::House;
use crate::mixture::acidity::Acid;
use crate::mixture::{Component, gas};
use crate::paste;
use crate::safety::Fact;
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart};
use crate::units::{celsius, in_kg_per_m3};

use super::heated::{hot, is_hot_clause};
use super::nature;
use super::told_against::{Against, said};

/// Taken where no density is known, kg/m³.
const WATER: f64 = 1000.0;

/// The pressure in the closed bottle over that of the air, bar; 0 where no carbonate goes in.
pub(super) fn gas_bar(solved: &Solved, house: &House) -> Fact<f64> {
    let parts = || solved.stages.iter().flat_map(|stage| &stage.parts).filter(|part| part.mass_g > 0.0);
    let carbonates: Vec<(&SolvedPart, f64, f64)> = parts().filter_map(|part| carbonate(part)).collect();
    if carbonates.is_empty() || has_gone(solved, house, &carbonates) {
        return Fact::Known(0.0);
    }
    let base_eq: f64 = carbonates.iter().map(|(_, eq, _)| eq).sum();
    let gas_mol: f64 = carbonates.iter().map(|(_, _, mol)| mol).sum();
    let acid_eq: f64 = parts().map(acid_eq).sum();
    let mol = if base_eq > acid_eq { gas_mol * acid_eq / base_eq } else { gas_mol };
    let liquid = solved.bottled();
    let density = liquid.density(celsius(20.0)).map_or(WATER, |density| in_kg_per_m3(density.value));
    Fact::Known(gas::gauge_bar(mol * density / liquid.total_grams()))
}

/// What it neutralises, and the gas that it gives off with as much acid, mol.
fn carbonate(part: &SolvedPart) -> Option<(&SolvedPart, f64, f64)> {
    let Material::Ingredient(entry) = &part.found.what else { return None };
    let names = [part.label.as_str(), part.of.as_str()].into_iter().chain(entry.own_names());
    let alkali = nature::alkali(names, entry.alkali);
    let eq = part.mass_g * alkali.most_eq_per_gram;
    (alkali.gas_mol_per_eq > 0.0).then_some((part, eq, eq * alkali.gas_mol_per_eq))
}

/// What a part brings of acid to meet it. Of something sour of which nobody knows how sour, enough.
fn acid_eq(part: &SolvedPart) -> f64 {
    let Material::Ingredient(entry) = &part.found.what else {
        return if part.stage().is_some() { 0.0 } else { of_acids(part) };
    };
    let listed = of_acids(part);
    if listed <= 0.0 && nature::of(entry).sour { f64::INFINITY } else { listed }
}

fn of_acids(part: &SolvedPart) -> f64 {
    let eq = |acid: &Acid, grams: f64| grams / acid.molar_mass * acid.titrated_protons;
    let of = |&component: &Component| Some(eq(Acid::of_component(component)?, part.found.per_gram.grams_of(component)));
    part.mass_g * Component::ACIDS.iter().filter_map(of).sum::<f64>()
}

/// Whether it has gone before the bottle is closed: by heat in which the carbonate was, or as a step says that nothing foams any more.
fn has_gone(solved: &Solved, house: &House, carbonates: &[(&SolvedPart, f64, f64)]) -> bool {
    let card = &solved.card;
    let steps = || card.all_stages().flat_map(|stage| &stage.steps).chain(&card.steps);
    if said(steps()).iter().any(|said| said.says(Against::Degassed)) {
        return true;
    }
    let is_heated = card.all_stages().any(hot) || steps().any(|step| is_hot_clause(step));
    let late = paste::put_in_behind(card, house, is_hot_clause);
    let is_late = |(part, _, _): &(&SolvedPart, f64, f64)| late.iter().any(|late| late.label.value == part.label);
    is_heated && !carbonates.iter().any(is_late)
}
