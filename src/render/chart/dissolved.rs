//! How much stays dissolved, against how warm it stands: the syrup of a card in each store of the house.

use crate::card::TargetKind;
use crate::house::Store;
use crate::mixture::{Estimate, Mixture};
use crate::properties::value_of;
use crate::units::display::temperature_text;
use crate::units::{Brix, celsius, degrees_celsius};

use super::ink::{BAND, CHOSEN, CURVE, Colour};
use super::map::{Legend, map, up_to};

/// Thinner ones nowhere crystallise; the map begins here, °Bx (ours: saturated water at 0 °C holds 64 °Bx).
const FROM_BRIX: f64 = 50.0;
/// As far as a store is cold and warm without being a freezer or a stove, °C (ours).
const WARMEST_C: f64 = 40.0;

/// No store is so cold that less stays dissolved, °Bx: the curve lies above it.
const HELD_ANYWHERE: f64 = 60.0;

/// How a syrup stands to what its water holds: what may be either is not called clear.
fn stands(brix: f64, most: &Estimate<Brix>) -> (&'static str, Colour) {
    let (held, error) = (most.value.get(), most.error.get());
    match brix {
        brix if brix > held + error => ("crystals form", CHOSEN),
        brix if brix > held - error => ("may form crystals", CHOSEN),
        _ => ("clear", CURVE),
    }
}

const CURVE_AND_DOUBT: &str = "curve: what its water holds; blue: its doubt";

/// The syrup on the map of what its water holds at each temperature; `None` of what is too thin to crystallise, or of which
/// that is not known.
pub fn what_stays_dissolved(name: &str, liquid: &Mixture, stores: &[Store]) -> Option<String> {
    let brix = value_of(TargetKind::Brix, liquid).filter(|brix| *brix >= FROM_BRIX)?;
    let held = |t_c: f64| liquid.saturation_brix(celsius(t_c)).ok();
    let steps = (0..=40).map(|step| WARMEST_C * f64::from(step) / 40.0);
    let curve: Vec<(f64, f64, f64)> =
        steps.map(|t_c| held(t_c).map(|of| (t_c, of.value.get(), of.error.get()))).collect::<Option<_>>()?;
    let most = curve.iter().map(|(_, held, error)| held + error).fold(brix + 2.0, f64::max);
    let here = stores.iter().map(|store| (store, degrees_celsius(store.temperature)));
    let here: Vec<_> = here.filter(|(_, t_c)| (0.0..=WARMEST_C).contains(t_c)).collect();
    let says = |(store, t_c): &(&Store, f64)| {
        let most = held(*t_c)?;
        let (verdict, _) = stands(brix, &most);
        let most = most.value.get();
        Some(format!("{verdict}: {} ({}), holds {most:.1} °Bx", store.name, temperature_text(store.temperature)))
    };
    let mut below = vec![format!("points: this card, {brix:.1} °Bx, store by store")];
    below.extend(here.iter().filter_map(says));
    // of plain sugar the curve is as thick as what is not known of it
    let is_sure = curve.iter().all(|(_, _, error)| *error < 0.5);
    below.push(if is_sure { "curve: what its water holds" } else { CURVE_AND_DOUBT }.to_owned());
    let legend = Legend { name, shows: "clear or crystals", axes: ["store, °C", "°Bx"], below };
    let top = up_to(most + 4.0, 10.0);
    let drawn = map(&legend, 0.0..WARMEST_C, FROM_BRIX..top, |map| {
        let upper = curve.iter().map(|(t_c, held, error)| (*t_c, held + error));
        let lower = curve.iter().rev().map(|(t_c, held, error)| (*t_c, held - error));
        map.area(&upper.clone().chain(lower.clone()).collect::<Vec<_>>(), BAND)?;
        map.keep_free(&upper.collect::<Vec<_>>());
        map.keep_free(&lower.collect::<Vec<_>>());
        map.curve(&curve.iter().map(|(t_c, held, _)| (*t_c, *held)).collect::<Vec<_>>(), CURVE, 3)?;
        for (_, t_c) in &here {
            let colour = held(*t_c).map_or(CHOSEN, |most| stands(brix, &most).1);
            map.point((*t_c, brix), colour)?;
        }
        map.named("crystals form in time", 0.0..WARMEST_C, most..top)?;
        map.named("clear", 0.0..WARMEST_C, FROM_BRIX..HELD_ANYWHERE)
    });
    Some(drawn).filter(|svg| !svg.is_empty())
}
