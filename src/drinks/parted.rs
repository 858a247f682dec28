//! What of a drink goes into bottles, and what in for the guest; of a drink inside it each part by itself.

use crate::house::House;
use crate::solver::{PouredPart, Solved, SolvedPart, inner_drink, poured_out};

use super::added::{AddedPart, WhyAdded, why_added};
use super::poured_out::{WATER, WaterOfIce};

/// What is added for the guest, and what is bottled, of one glass; the water of its own ice is neither. That of the ice of a drink inside
/// is bottled or added as the water of the ice is.
pub(super) fn parted<'a>(
    one: &'a Solved,
    house: &House,
    dilution: WaterOfIce,
) -> (Vec<AddedPart>, Vec<PouredPart<'a>>) {
    let (mut at_service, bottled) = by_keeping(one, house);
    if dilution == WaterOfIce::InTheBottle {
        return (at_service, bottled);
    }
    let inside = bottled.iter().flat_map(|of| poured_out(of.part, of.mass_g, of.within));
    let (melted, bottled): (Vec<_>, Vec<_>) = inside.partition(|of| of.part.melts.is_some());
    for of in melted {
        let water = SolvedPart { label: WATER.to_owned(), of: WATER.to_owned(), ..of.part.so_much(of.mass_g) };
        let part = SolvedPart { melts: None, ..water };
        add(&mut at_service, one, &PouredPart { part: &part, ..of }, WhyAdded::IceInside);
    }
    (at_service, bottled)
}

/// The drinks inside that go in whole, and have water of their own ice: a float, and what is made in stages of its own.
pub(super) fn whole_inside(one: &Solved, bottled: &[PouredPart<'_>]) -> Vec<String> {
    let is_on_ice = |drink: &&Solved| drink.with_inner().iter().any(|(of, _)| of.ice_water.is_some());
    let floats = one.last().parts.iter().filter(|part| part.after_ice).filter_map(|part| inner_drink(one, part));
    let staged = bottled.iter().flat_map(|of| poured_out(of.part, of.mass_g, of.within));
    let staged: Vec<&Solved> = staged.filter_map(|of| inner_drink(of.within, of.part)).collect();
    let mut names: Vec<String> = floats.chain(staged).filter(is_on_ice).map(|drink| drink.name.clone()).collect();
    names.sort();
    names.dedup();
    names
}

/// By what keeps.
fn by_keeping<'a>(one: &'a Solved, house: &House) -> (Vec<AddedPart>, Vec<PouredPart<'a>>) {
    let (mut at_service, mut bottled): (Vec<AddedPart>, Vec<PouredPart<'_>>) = Default::default();
    for part in one.last().parts.iter().filter(|part| part.melts.is_none()) {
        let whole = PouredPart { part, mass_g: part.mass_g, within: one };
        // a float stays what it is
        let inside = if part.after_ice { vec![whole] } else { poured_out(part, part.mass_g, one) };
        match inside.as_slice() {
            [_] => match why_added(part, one, house) {
                Some(why) => add(&mut at_service, one, &whole, why),
                None => bottled.push(whole),
            },
            // of a drink inside what keeps is bottled
            inside => {
                for poured in inside {
                    // what was sprayed on the drink inside is in it
                    match why_added(poured.part, poured.within, house).filter(|why| *why != WhyAdded::Sprayed) {
                        Some(why) => add(&mut at_service, one, poured, why),
                        None => bottled.push(*poured),
                    }
                }
            }
        }
    }
    (at_service, bottled)
}

/// What is added twice, by itself and in a drink inside, is poured once.
fn add(at_service: &mut Vec<AddedPart>, drink: &Solved, of: &PouredPart<'_>, why: WhyAdded) {
    let as_written = of.mass_g == of.part.mass_g;
    let part = if as_written { of.part.clone() } else { of.part.so_much(of.mass_g) };
    // no gas is shaken, whatever the drink inside does with it
    let after_ice = part.after_ice || why == WhyAdded::Gas;
    let same = |added: &&mut AddedPart| {
        added.part.label == part.label && added.part.of == part.of && added.part.after_ice == after_ice
    };
    match at_service.iter_mut().find(same) {
        Some(added) => added.part = added.part.so_much(added.part.mass_g + of.mass_g),
        None => {
            let part = SolvedPart { after_ice, ..part };
            let how = of.within.card.drink.how.as_ref().map(|how| how.value);
            let of_inner = how.filter(|_| !std::ptr::eq(of.within, drink));
            at_service.push(AddedPart { part, why, of_inner });
        }
    }
}
