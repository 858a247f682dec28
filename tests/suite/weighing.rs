//! How lines are weighed: stocks only where they help, in goes where the scale carries no more, and the uncertainty of the
//! same weighing.

use crate::kitchen::{Kitchen, Made, close};
use stillroom::solver::weighing::{self, How, Stock, TRUSTED_STEPS, Weighing};
use stillroom::uncertainty::spread;

const COARSE: &str = "[instruments]\nscale = \"1 g up to 5 kg\"\n";

fn with(settings: &str, card: &str) -> Made {
    let kitchen = Kitchen::new("");
    kitchen.write("house.toml", settings);
    kitchen.makes(card)
}

fn sour(acid: &str, makes: &str) -> String {
    format!(
        "name = \"x\"\nmakes = \"{makes}\"\n[target]\nbrix = 50\n[parts]\n\"citric acid\" = \"{acid}\"\n\
         \"white sugar\" = \"as needed\"\nwater = \"as needed\"\n"
    )
}

fn how_of(made: &Made, label: &str) -> How {
    let hows = weighing::ways(made.solved(), &made.house.settings.instruments);
    let parts = made.solved().stages.iter().zip(hows).flat_map(|(stage, hows)| stage.parts.iter().zip(hows));
    parts.into_iter().find(|(part, _)| part.label == label).unwrap().1
}

fn stock_of(made: &Made) -> Option<Stock> {
    match how_of(made, "citric acid").by {
        Weighing::Stock(stock) => Some(stock),
        _ => None,
    }
}

#[test]
fn a_stock_holds_more_than_is_taken_of_it_and_is_surer_than_the_dose_itself() {
    let mut stocks = 0;
    for tenth in 1..250 {
        let grams = f64::from(tenth) / 10.0;
        let made = with(COARSE, &sour(&format!("{grams} g"), "2 L"));
        let Some(stock) = stock_of(&made) else { continue };
        stocks += 1;
        assert!(stock.take_g(grams) <= stock.dissolve_g + stock.in_water_g(), "{grams} {stock:?}");
        assert!(stock.dissolve_g >= TRUSTED_STEPS, "{grams} {stock:?}");
        assert!(how_of(&made, "citric acid").half_width_g < 1.0, "{grams} {stock:?}");
        assert!(stock.brings_g(grams) <= made.grams("water"), "{grams} {stock:?}");
    }
    assert!(stocks > 100, "{stocks}");
    // 20 g in 180 g, of which 120 g: 5 % where 12 g on the same scale would be 8 %.
    let made = with(COARSE, &sour("12 g", "1 L"));
    assert_eq!(stock_of(&made), Some(Stock { dissolve_g: 20.0, one_in: 10.0 }));
    close(how_of(&made, "citric acid").half_width_g / 12.0, (1.0_f64 / 20.0).hypot(1.0 / 120.0), 1e-12);
    assert!(made.text().contains("citric acid: dissolve 20 g in 180 g water, weigh 120 g of that; its water, 108 g,"));
    // 18 g is nearly as sure as 20 g: weigh it.
    let made = with(COARSE, &sour("18 g", "1 L"));
    assert_eq!(stock_of(&made), None);
    let text = made.text();
    assert!(
        text.contains("citric acid: weigh 18 g directly; on this scale it may be off by 5.6 %: make a larger"),
        "{text}"
    );
}

#[test]
fn the_readings_count_the_stock_with_its_water() {
    let made = with(COARSE, &sour("12 g", "1 L"));
    let lines = made.sheet().stages[0].lines.clone();
    assert_eq!(lines[0].reads_g, 120.0);
    let total: f64 = lines.iter().map(|l| l.mass_g).sum();
    close(lines[2].reads_g, total, 1e-9);
}

#[test]
fn a_main_part_of_a_small_batch_is_weighed_and_not_dissolved_first() {
    let card = "name = \"x\"\n[parts]\n\"white sugar\" = \"18 g\"\nwater = \"18 g\"\n";
    let text = with(COARSE, card).text();
    assert!(!text.contains("dissolve"), "{text}");
    assert!(text.contains("white sugar: weigh 18 g directly; on this scale it may be off by 5.6 %"), "{text}");
    // 36 g of which half is water: a gram of that is not nothing either.
    assert!(text.contains("water: weigh 18 g directly; on this scale"), "{text}");
    // More water with the stock than the stage has.
    let dry = "name = \"x\"\n[parts]\n\"citric acid\" = \"5 g\"\n\"white sugar\" = \"500 g\"\nwater = \"40 g\"\n";
    assert_eq!(stock_of(&with(COARSE, dry)), None);
}

#[test]
fn what_does_not_dissolve_is_never_a_stock() {
    let card = "name = \"x\"\n[parts]\nclove = { amount = \"5 g\", strained = true }\nwater = \"900 g\"\n";
    let made = with(COARSE, card);
    assert!(how_of(&made, "clove").unsure);
    assert!(made.text().contains("clove: weigh 5 g directly; on this scale it may be off by 20 %"), "{}", made.text());
}

#[test]
fn a_line_that_the_scale_cannot_carry_is_weighed_in_goes() {
    let card = |water: &str| format!("name = \"x\"\n[parts]\nwater = \"{water}\"\n\"white sugar\" = \"400 g\"\n");
    for (grams, count, each, last) in
        [(5106.0, 2, 2553.0, 2553.0), (5107.0, 2, 2554.0, 2553.0), (14999.0, 3, 5000.0, 4999.0)]
    {
        let made = with(COARSE, &card(&format!("{grams} g")));
        let lines = made.sheet().stages[0].lines.clone();
        let goes = lines[0].goes.unwrap();
        assert_eq!((goes.count, goes.each_g, goes.last_g), (count, each, last));
        assert!(goes.each_g <= 5000.0);
        close(f64::from(goes.count - 1) * goes.each_g + goes.last_g, grams, 1e-9);
        // The vessel is empty, or another one, for what comes next.
        assert!(lines[1].tare_again && lines[1].reads_g == 400.0, "{lines:?}");
        close(how_of(&made, "water").half_width_g, f64::from(count).sqrt(), 1e-12);
    }
    let text = with(COARSE, &card("5106 g")).text();
    assert!(text.contains("in 2 goes") && text.contains("2 × 2,553 g"), "{text}");
    assert!(with(COARSE, &card("5000 g")).sheet().stages[0].lines[0].goes.is_none());
}

/// The maximum capacity of a scale can itself be weighed (OIML R 76-1, "Max"): only what goes beyond it begins from zero.
#[test]
fn a_vessel_is_tared_again_where_the_next_part_would_go_beyond_the_scale() {
    for (sugar, tared, reads) in [("2000 g", false, 5000.0), ("2001 g", true, 2001.0), ("1999 g", false, 4999.0)] {
        let made = with(COARSE, &format!("name = \"x\"\n[parts]\nwater = \"3000 g\"\n\"white sugar\" = \"{sugar}\"\n"));
        let lines = made.sheet().stages[0].lines.clone();
        assert!(!lines[0].tare_again && lines[0].reads_g == 3000.0, "{lines:?}");
        assert_eq!((lines[1].tare_again, lines[1].reads_g), (tared, reads), "{sugar}");
    }
}

#[test]
fn the_doubt_of_a_line_is_that_of_how_the_sheet_weighs_it() {
    for (settings, acid) in [(COARSE, "2 g"), (COARSE, "12 g"), (COARSE, "18 g"), ("", "2 g")] {
        let made = with(settings, &sour(acid, "1 L"));
        let inputs = spread::inputs(made.solved(), &made.house.settings.instruments);
        let input = inputs.iter().find(|i| i.what == "weighing citric acid").unwrap();
        let acid_g = |side| {
            let out = input.run(made.solved(), side);
            out.grams_of(stillroom::mixture::Component::Citric)
        };
        let half_width = how_of(&made, "citric acid").half_width_g;
        // The larder has half a percent of water in it.
        close(0.5 * (acid_g(1.0) - acid_g(-1.0)) / half_width, 1.0, 0.01);
    }
}

/// A dose below the step of the scale is no nought: what is to be weighed stands on the sheet.
#[test]
fn a_dose_that_the_scale_does_not_show_is_told_as_it_is() {
    let card = "name = \"x\"\n[parts]\nwater = \"500 g\"\n\"white sugar\" = \"500 g\"\nsaffron = \"0.4 g\"\n";
    let kitchen = Kitchen::new("");
    kitchen.write("house.toml", "[house]\nname = \"x\"\n");
    let text = kitchen.makes(card).text();
    let row = text.lines().find(|line| line.trim_start().starts_with("saffron")).unwrap();
    assert!(
        row.split_whitespace().any(|cell| cell == "0.4") && text.contains("saffron: weigh 0.4 g directly"),
        "{text}"
    );
}
