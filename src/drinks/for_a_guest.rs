//! How a guest gets what was bottled: what is poured, what is added, and what is still done with it. The card and the label say it.

use crate::card::Card;
use crate::solver::resolve::Material;
use crate::solver::{IceWater, by_hand, may_be_warm};
use crate::spelling::words;
use crate::units::display::{grouped, short, span, volume_text};
use crate::units::jigger::as_measured;
use crate::units::{in_grams, millilitres};
use crate::vocabulary::{DrinkHow, IceKind, Kind};

use super::added::{AddedPart, WhyAdded};
use super::poured_out::WaterOfIce;

/// How it is finished for a guest.
pub(super) struct Finish<'a> {
    /// What of the weighed water, or of the least that it may be, is left out of the bottle, a glass.
    pub(super) left_out_g: Option<f64>,
    /// Water that is too much for the bottle, a glass.
    pub(super) water_g: Option<f64>,
    pub(super) dilution: WaterOfIce,
    pub(super) ice_water: Option<&'a IceWater>,
}

/// "pour 84.9 ml (87 g), add 21.3 ml lime juice"; of what may still be watered also the pour with all that water. What goes in
/// behind the ice comes after the work.
pub(super) fn for_a_guest(
    card: &Card,
    (pour, wettest): ((f64, f64), Option<(f64, f64)>),
    added: &[AddedPart],
    finish: &Finish<'_>,
) -> String {
    // the water of its ice is in the bottle, and nothing cools it any more
    let is_strained = card.drink.how.as_ref().is_some_and(|how| how.value.is_strained());
    let nothing_cools = is_strained && finish.dilution == WaterOfIce::InTheBottle;
    // what is sprayed goes on last
    let is_last = |added: &AddedPart| added.part.after_ice || added.why == WhyAdded::Sprayed;
    let warmth = |added @ AddedPart { part, why, of_inner }: &AddedPart| match (part.at_c, *why) {
        _ if nothing_cools && may_be_warm(part) => ", cooled".to_owned(),
        // what is hot in a drink inside was poured together with it: by itself it would go boiling hot into a closed tin
        _ if is_strained && of_inner.is_some() && !is_last(added) && may_be_warm(part) => ", cooled".to_owned(),
        (Some(at), _) => format!(" at {} °C", grouped(at, 0)),
        (None, WhyAdded::Hot) => ", hot".to_owned(),
        (None, _) => String::new(),
    };
    let amount =
        |added @ AddedPart { part, why, of_inner }: &AddedPart| match (by_hand::poured_by_hand(part), part.volume_ml())
        {
            (Some(_), _) if *why == WhyAdded::Sprayed => {
                let written = part.written.as_ref().map_or_else(String::new, |written| written.text.trim().to_owned());
                format!("{written} of {}", part.label)
            }
            (Some(counted), _) => counted,
            // what a drink inside is poured of is a share of what its own card has
            (None, Some(ml)) if of_inner.is_some() => {
                format!("{} {}{}", as_measured(ml), part.label, of_one_egg(added).unwrap_or_default())
            }
            (None, Some(ml)) => format!("{} ml {}", short(ml), part.label),
            (None, None) => format!("{} g {}", short(part.mass_g), part.label),
        };
    let part = |added: &AddedPart| amount(added) + &warmth(added);
    let put_in = |behind_ice: bool| {
        let all: Vec<String> = added.iter().filter(|added| is_last(added) == behind_ice).map(part).collect();
        (!all.is_empty()).then(|| format!("add {}", all.join(", ")))
    };
    let mixed = || added.iter().filter(|added| !is_last(added));
    let mixed_in = MixedIn {
        egg: mixed().any(|added| added.why == WhyAdded::Egg),
        foams: mixed().any(wants_shaking),
        egg_of_shaken: mixed().any(|added| added.why == WhyAdded::Egg && added.of_inner == Some(DrinkHow::Shaken)),
        any: mixed().next().is_some(),
    };
    let cold = (nothing_cools && finish.ice_water.is_some()).then(|| "serve it cold, no ice".to_owned());
    let measure = |(ml, grams): (f64, f64)| format!("{} ({} g)", volume_text(millilitres(ml)), grouped(grams, 0));
    let poured = match wettest.map(measure).filter(|most| *most != measure(pour)) {
        Some(most) => {
            format!("pour {} if no water was added to the bottle, up to {most} if all of it was", measure(pour))
        }
        None => format!("pour {}", measure(pour)),
    };
    let to_taste = finish.water_g.map(|g| format!("to taste, up to {} ml", grouped(g, 0)));
    let watered = match (finish.left_out_g, to_taste) {
        (Some(g), None) => Some(format!("add {} ml cold water", short(g))),
        (Some(g), Some(more)) => Some(format!("add {} ml cold water, more {more}", short(g))),
        (None, more) => more.map(|more| format!("add water {more}")),
    };
    let all = [Some(poured), watered, put_in(false), worked(card, mixed_in, finish), put_in(true), cold];
    all.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// How many glasses one egg is for, where that is more than one.
fn of_one_egg(AddedPart { part, why, .. }: &AddedPart) -> Option<String> {
    let Material::Ingredient(egg) = &part.found.what else { return None };
    let glasses = (in_grams(egg.piece.filter(|_| *why == WhyAdded::Egg)?) / part.mass_g).round();
    (glasses > 1.0).then(|| format!(" (1 egg for {} glasses)", grouped(glasses, 0)))
}

/// What makes no foam, or stands apart, until it is shaken: egg, milk and cream, the water of chickpeas, coconut cream, espresso and
/// cold brew, pineapple, a purée.
fn wants_shaking(added: &AddedPart) -> bool {
    match (added.why, &added.part.found.what) {
        (WhyAdded::Egg | WhyAdded::Dairy, _) => true,
        (_, Material::Ingredient(of)) => {
            let is_pineapple = || words(&of.name).iter().any(|word| word == "pineapple");
            matches!(of.kind, Some(Kind::Legume | Kind::PlantMilk | Kind::Coffee | Kind::Puree)) || is_pineapple()
        }
        (_, Material::Card(_) | Material::Stage(_)) => false,
    }
}

/// What is added before the work.
#[derive(Clone, Copy)]
struct MixedIn {
    /// It is shaken without ice before it is shaken on any: on ice alone it makes less foam (common practice, no source).
    egg: bool,
    foams: bool,
    /// The egg of a shaken drink inside is shaken in what is built, swizzled, stirred or thrown too.
    egg_of_shaken: bool,
    any: bool,
}

/// What is still done with it for the guest. The water of the ice is in the bottle where the drink is strained off it: an egg is then
/// shaken without any. Of the others the ice stays in the glass.
fn worked(card: &Card, mixed_in: MixedIn, finish: &Finish<'_>) -> Option<String> {
    let how = card.drink.how.as_ref()?.value;
    let is_shaken = matches!(how, DrinkHow::Shaken | DrinkHow::Blended);
    let foamed = (mixed_in.egg_of_shaken && !is_shaken).then(|| "shake hard without ice".to_owned());
    let all: Vec<String> = foamed.into_iter().chain(on_ice(card, mixed_in, finish)).collect();
    (!all.is_empty()).then(|| all.join(", "))
}

/// The same by how the drink is made.
fn on_ice(card: &Card, mixed_in: MixedIn, finish: &Finish<'_>) -> Option<String> {
    let ice_water = finish.ice_water;
    let how = card.drink.how.as_ref()?.value;
    let ice = card.drink.ice.as_ref();
    let ice = |usual: &str| {
        let kind = match ice.and_then(|ice| ice.kind) {
            None => usual.to_owned(),
            Some(IceKind::Cubes) => "ice cubes".to_owned(),
            Some(kind) => format!("{kind} ice"),
        };
        let grams = ice.and_then(|ice| ice.grams).map(|grams| format!("{} g of ", short(in_grams(grams))));
        format!("{}{kind}", grams.unwrap_or_default())
    };
    match how {
        DrinkHow::Blended => {
            let water = ice_water?;
            Some(format!("blend with {} g of ice", span(water.least_g, water.most_g, 0)))
        }
        DrinkHow::Shaken | DrinkHow::Stirred | DrinkHow::Thrown if finish.dilution == WaterOfIce::OnItsIce => {
            let how = match how {
                DrinkHow::Shaken => "shake",
                DrinkHow::Thrown => "throw",
                _ => "stir",
            };
            let dry = if mixed_in.egg && how == "shake" { "shake hard without ice, then " } else { "" };
            Some(format!("{dry}{how} with {}, strain", ice("ice")))
        }
        DrinkHow::Shaken if mixed_in.foams => Some("shake hard without ice".to_owned()),
        DrinkHow::Shaken if mixed_in.any => Some("shake without ice".to_owned()),
        DrinkHow::Stirred | DrinkHow::Thrown if mixed_in.any && !mixed_in.egg_of_shaken => {
            Some("stir without ice".to_owned())
        }
        DrinkHow::Shaken | DrinkHow::Stirred | DrinkHow::Thrown => None,
        DrinkHow::Swizzled => Some(format!("swizzle with {}", ice("crushed ice"))),
        DrinkHow::Built => ice_water.map(|_| format!("serve on {}", ice("ice"))),
    }
}
