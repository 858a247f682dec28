//! What of a drink is left out of a batch and goes in for the guest, and why.

use crate::assessment::{product::is_raw_juice, undated};
use crate::house::House;
use crate::larder::Form;
use crate::shelf_life;
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart, is_hot};
use crate::vocabulary::{DrinkHow, Kind, words};

words! {
    /// Why a part goes in for the guest.
    WhyAdded, "reason":
    BehindIce = "goes in last",
    Gas = "gas",
    Hot = "hot",
    Sprayed = "sprayed",
    Egg = "egg",
    Dairy = "dairy",
    RawJuice = "fresh juice",
    Fresh = "fresh",
    Perishable = "perishable",
    IceInside = "in place of the ice inside",
}

/// A part that goes in for the guest.
#[derive(Clone, Debug)]
pub struct AddedPart {
    /// It, for one glass.
    pub part: SolvedPart,
    /// Why it is in no bottle.
    pub why: WhyAdded,
    /// How the drink inside is made that it belongs to; `None` of what the drink itself puts in.
    pub of_inner: Option<DrinkHow>,
}

/// What does not keep, loses its gas, is hot or goes in behind the ice; and a product of the house that is raw juice, egg or dairy by
/// its own judgement. A spirit washed with fat or milk is a spirit. `None` of what is bottled.
pub(super) fn why_added(part: &SolvedPart, drink: &Solved, house: &House) -> Option<WhyAdded> {
    use Kind::{
        Beer, Cider, Coffee, Dairy, Egg, Fruit, Herb, Juice, Legume, PlantMilk, Puree, Soda, SweetCitrusJuice, Tea,
        Vegetable, Water,
    };
    if part.found.gas {
        return Some(WhyAdded::Gas);
    }
    if part.after_ice {
        return Some(WhyAdded::BehindIce);
    }
    // it is the glass or the top that is sprayed
    if part.written.as_ref().and_then(|written| written.measure).is_some_and(|measure| measure.sprayed == Some(true)) {
        return Some(WhyAdded::Sprayed);
    }
    match &part.found.what {
        Material::Ingredient(of) => match of.kind {
            Some(Beer | Cider | Soda) => Some(WhyAdded::Gas),
            Some(Egg) => Some(WhyAdded::Egg),
            Some(Dairy) => Some(WhyAdded::Dairy),
            Some(Juice | SweetCitrusJuice) => Some(WhyAdded::RawJuice),
            Some(Fruit | Herb | Puree | Vegetable) => Some(WhyAdded::Fresh),
            Some(Water | Tea | Coffee) if is_hot(part) => Some(WhyAdded::Hot),
            // neutral, and food for whatever gets in: a drink with them is not one that spirit keeps for months
            Some(PlantMilk | Legume | Coffee) if of.form == Form::Liquid => Some(WhyAdded::Perishable),
            _ => is_raw_juice(part, of).then_some(WhyAdded::RawJuice),
        },
        Material::Card(place) => {
            let (judged, _) = undated(&drink.inner.get(*place)?.card.ungarnished(), house);
            let of = &judged.product;
            // fat that was lifted off and curd that was strained off are gone
            let dairy =
                of.contents.dairy.filter(|dairy| matches!(dairy, shelf_life::Dairy::Milk | shelf_life::Dairy::Cream));
            let egg = of.contents.egg.map(|_| WhyAdded::Egg);
            let juice = || (of.raw_juice > 0.0).then_some(WhyAdded::RawJuice);
            egg.or(dairy.map(|_| WhyAdded::Dairy)).or_else(juice)
        }
        Material::Stage(_) => None,
    }
}
