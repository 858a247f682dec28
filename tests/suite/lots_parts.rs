//! The parts of a lot: whose lot they are, how old they are, and what they bring with them.

use serde_json::Value;

use crate::bar::{Bar, ago, said, today};

const HOUSE: &str =
    "[house]\nname = \"The still\"\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\nfreezer = \"-18 °C\"\n";
const KEPT: &str = "[keep]\nfill = \"cold\"\nclosed = true\n";
const SYRUP: &str = "name = \"House syrup\"\nmakes = \"1 L\"\n[target]\nbrix = 66\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";
const BLEND: &str = "name = \"Blend\"\n[parts]\n\"House syrup\" = \"500 g\"\nwater = \"500 g\"\n";

/// A liqueur of plums that stood warm for two weeks, at this strength and with so much sugar.
fn liqueur(name: &str, abv: u32, sugar: u32) -> String {
    format!(
        "name = \"{name}\"\nmakes = \"2 L\"\n[[stage]]\nname = \"damson spirit\"\ntakes = \"14 days\"\n[stage.parts]\ndamsons = {{ amount = \"800 g\", strained = true, holds = -0.3 }}\nvodka = \"900 ml\"\n[target]\nabv = {abv}\nsugar = \"{sugar} g/L\"\n[parts]\n\"damson spirit\" = {{ amount = \"as needed\" }}\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n{KEPT}"
    )
}

fn bar(cards: &[(&str, &str)]) -> Bar {
    Bar::new(HOUSE, "").with(cards)
}

fn text(bar: &Bar, arguments: &[&str]) -> String {
    let page = String::from_utf8(bar.run(arguments).stdout).unwrap();
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn codes(view: &Value, key: &str) -> Vec<String> {
    view[key].as_array().unwrap().iter().map(|lot| lot["lot"].as_str().unwrap().to_owned()).collect()
}

fn part<'v>(told: &'v Value, name: &str) -> &'v Value {
    told["parts"].as_array().unwrap().iter().find(|part| part["of"] == name).unwrap()
}

/// Of two lots nobody knows which it was until it is said: both recalls find it, and it has no date.
#[test]
fn of_two_lots_none_is_taken_in_silence() {
    let bar = bar(&[("syrup.toml", SYRUP), ("blend.toml", BLEND)]);
    let old = bar.lot(&["syrup.toml", "--made", &ago(5)]);
    let (sure, told) = bar.record(&["blend.toml", "--made", &ago(4)]);
    assert_eq!(
        (&part(&told, "House syrup")["lot"], &part(&told, "House syrup")["assumed"]),
        (&old.as_str().into(), &true.into()),
        "{told}"
    );
    let recall = text(&bar, &["recall", &sure]);
    assert!(recall.contains(&format!("taken as lot {old}, the only one in date")), "{recall}");
    // once somebody has said it, it is assumed no more
    let told = bar.json(&["tell", &sure, &format!("House syrup={old}")]);
    assert!(part(&told, "House syrup")["assumed"].is_null(), "{told}");

    let new = bar.lot(&["syrup.toml", "--made", &ago(1)]);
    let out = bar.run(&["record", "blend.toml"]);
    assert!(out.status.success(), "{out:?}");
    let asked = said(&out).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(asked.contains(&format!("which of its lots it is, `{old}` and `{new}`")), "{asked}");
    let due = bar.json(&["due"]);
    let blends: Vec<&Value> = due["lots"].as_array().unwrap().iter().filter(|lot| lot["soon"] == "no_date").collect();
    let [blend] = blends.as_slice() else { panic!("{due}") };
    let blend = blend["lot"].as_str().unwrap();
    for lot in [&old, &new] {
        assert!(codes(&bar.json(&["recall", lot]), "perhaps").contains(&blend.to_owned()), "{lot}");
    }
    // what was used up that day may have been the one
    bar.run(&["use-up", &old]);
    let (_, told) = bar.record(&["blend.toml"]);
    assert!(part(&told, "House syrup")["lot"].is_null(), "{told}");
    let (_, told) = bar.record(&["blend.toml", "--part", &format!("House syrup={new}")]);
    assert_eq!(part(&told, "House syrup")["lot"], new.as_str());
    assert!(part(&told, "House syrup")["assumed"].is_null() && told["use_by"]["day"].is_string(), "{told}");
}

/// A liqueur that needs no cold starts no count: what is watered today is as old as today. What was watered earlier does.
#[test]
fn the_day_of_what_needs_no_cold_starts_no_count() {
    let weak = format!("name = \"Weak liqueur\"\n[parts]\n\"Damson liqueur\" = \"300 g\"\nwater = \"900 g\"\n{KEPT}");
    let late = format!("name = \"Late\"\n[parts]\n\"Weak liqueur\" = \"500 g\"\nwater = \"500 g\"\n{KEPT}");
    let liqueur = liqueur("Damson liqueur", 19, 220);
    let bar = bar(&[("damson.toml", &liqueur), ("weak.toml", &weak), ("late.toml", &late)]);
    let day = |card: &str, part: &str, days: i64| {
        let (_, told) = bar.record(&[card, "--in", "fridge", "--part", &format!("{part}={}", ago(days))]);
        told["use_by"].clone()
    };
    let fresh = day("weak.toml", "Damson liqueur", 0);
    assert!(fresh["day"].as_str().unwrap() > today().to_string().as_str(), "{fresh}");
    assert!(fresh["because"].as_str().unwrap().contains("7 days"), "the case is one of control: {fresh}");
    assert_eq!(day("weak.toml", "Damson liqueur", 60)["day"], fresh["day"]);
    // what needs cold itself passes its day on
    assert!(day("late.toml", "Weak liqueur", 3)["day"].as_str() < day("late.toml", "Weak liqueur", 0)["day"].as_str());
}

/// What spoiled in a product spoils in whatever it makes up most of: its bottled drink, and a product made of that.
#[test]
fn what_grew_counts_for_what_is_most_of_it_that_product() {
    let pour = format!("name = \"Pour\"\n[parts]\n\"Damson liqueur\" = \"900 g\"\nvodka = \"100 g\"\n{KEPT}");
    let again = format!("name = \"Pour again\"\n[parts]\nPour = \"700 g\"\nvodka = \"300 g\"\n{KEPT}");
    let little = format!("name = \"Little\"\n[parts]\n\"Damson liqueur\" = \"400 g\"\nvodka = \"600 g\"\n{KEPT}");
    let liqueur = liqueur("Damson liqueur", 19, 220);
    let bar = bar(&[("damson.toml", &liqueur), ("pour.toml", &pour), ("again.toml", &again), ("little.toml", &little)]);
    let of_pour = bar.lot(&["pour.toml", "--in", "fridge", "--part", &format!("Damson liqueur={}", ago(0))]);
    let days = |card: &str| bar.json(&["date", card, "--store", "fridge"])["stores"][0]["days"].as_u64().unwrap();
    let little_before = days("little.toml");
    let bad = bar.lot(&["damson.toml", "--made", &ago(20)]);
    assert!(bar.run(&["discard", &bad, "--why", "mould"]).status.success());
    assert_eq!(["damson.toml", "pour.toml", "again.toml"].map(days), [19, 19, 19]);
    assert_eq!(days("little.toml"), little_before, "two fifths are not most of it");
    let due = bar.json(&["due"]);
    let line = due["lots"].as_array().unwrap().iter().find(|line| line["lot"] == of_pour.as_str()).unwrap();
    assert_eq!(line["use_by"]["day"], ago(-18), "the lot that stood there already: {line}");
    // and after a move it is no longer
    let moved = bar.json(&["move", &of_pour, "back bar"]);
    assert!(moved["use_by"]["day"].as_str().unwrap() <= ago(-18).as_str(), "{moved}");
}

/// Yeast of two warm weeks goes with the liquid into the next bottle, unless that is heated.
#[test]
fn warm_weeks_go_with_what_makes_up_most_of_it() {
    // weak from the first day on: what stands in spirit grows nothing
    let light =
        liqueur("Damson light", 11, 180).replace("vodka = \"900 ml\"", "vodka = \"700 ml\"\nwater = \"700 ml\"");
    let pour = format!("name = \"Pour\"\n[parts]\n\"Damson light\" = \"1 kg\"\n{KEPT}");
    let heated =
        format!("name = \"Heated\"\nheated = \"85 °C for 10 min\"\n[parts]\n\"Damson light\" = \"1 kg\"\n{KEPT}");
    let bar = bar(&[("light.toml", &light), ("pour.toml", &pour), ("heated.toml", &heated)]);
    let days = |card: &str| bar.json(&["date", card, "--store", "fridge"])["stores"][0]["days"].as_u64();
    let of_light = days("light.toml");
    assert!(of_light.is_some_and(|days| days <= 7), "two warm weeks count: {of_light:?}");
    assert_eq!(days("pour.toml"), of_light);
    assert!(days("heated.toml") > of_light);
}

/// What a day that is told later changes is the date, not the store: it stood in the freezer from the first day on.
#[test]
fn a_day_that_is_told_thaws_nothing() {
    let sour = format!("name = \"Sour\"\n[parts]\n\"lime juice\" = \"400 g\"\nwater = \"600 g\"\n{KEPT}");
    let bar = bar(&[("sour.toml", &sour)]);
    let juice = format!("lime juice={}", today());
    let (_, at_once) = bar.record(&["sour.toml", "--in", "freezer", "--part", &juice]);
    assert!(at_once["use_by"]["days_left_when_thawed"].is_u64(), "{at_once}");
    let (lot, open) = bar.record(&["sour.toml", "--in", "freezer"]);
    assert_eq!(open["soon"], "no_date", "{open}");
    let told = bar.json(&["tell", &lot, &juice]);
    assert_eq!((&told["use_by"], &told["soon"]), (&at_once["use_by"], &"frozen".into()));
    let thawed = bar.json(&["move", &lot, "fridge"]);
    assert!(thawed["use_by"]["day"].is_string(), "{thawed}");
}

/// What is too strong to freeze keeps in the freezer as in a cold store: recorded there, told there and moved there it has the same day.
#[test]
fn what_does_not_freeze_counts_on_in_the_freezer() {
    let bar = Bar::new("[house]\nname = \"The still\"\n[stores]\nfridge = \"4 °C\"\nfreezer = \"-18 °C\"\n", "");
    bar.kitchen
        .write("syrup.toml", "name = \"House syrup\"\n[parts]\n\"white sugar\" = \"650 g\"\nwater = \"350 g\"\n");
    bar.kitchen.write(
        "flask.toml",
        "name = \"Flask\"\n[parts]\nvodka = \"800 g\"\nvermouth = \"150 g\"\n\"House syrup\" = \"50 g\"\n",
    );
    let day = today().to_string();
    let flask = |store: &str| bar.record(&["flask.toml", "--in", store, "--part", &format!("House syrup={day}")]);
    let ((cold, recorded), (moved, in_fridge)) = (flask("freezer"), flask("fridge"));
    let dates = [&recorded["use_by"]["day"], &in_fridge["use_by"]["day"]];
    assert!(dates.iter().all(|day| day.is_string()), "{recorded}{in_fridge}");
    assert!(bar.run(&["tell", &cold, &format!("House syrup={day}")]).status.success());
    assert!(bar.run(&["move", &moved, "freezer"]).status.success());
    let due = bar.json(&["due"]);
    let now =
        |lot: &str| due["lots"].as_array().unwrap().iter().find(|l| l["lot"] == lot).unwrap()["use_by"]["day"].clone();
    // it stood in no fridge from one day to another
    assert_ne!(dates[0], dates[1], "{recorded}{in_fridge}");
    assert_eq!((&now(&cold), &now(&moved)), (dates[0], dates[0]), "{due}");
    let [out, back] = ["fridge", "freezer"].map(|store| bar.json(&["move", &cold, store])["use_by"]["day"].clone());
    assert_eq!((&out, &back), (dates[1], dates[0]));
}

/// No day that is told takes raw egg away: the lot must go at once, and the board says for what. What went into others whole is not there.
#[test]
fn what_must_go_says_why_and_what_is_gone_is_not_listed() {
    let bar = Bar::new("[house]\nname = \"The still\"\n", "");
    bar.kitchen
        .write("syrup.toml", "name = \"House syrup\"\n[parts]\n\"white sugar\" = \"325 g\"\nwater = \"175 g\"\n");
    bar.kitchen.write(
        "mix.toml",
        "name = \"Mix\"\n[parts]\n\"House syrup\" = \"500 g\"\nrum = \"300 g\"\n\"egg white\" = \"100 g\"\n",
    );
    let syrup = bar.lot(&["syrup.toml"]);
    let (mix, open) = bar.record(&["mix.toml", "--part", "House syrup=K7"]);
    assert_eq!((&open["soon"], &open["use_by"]["not_told"]), (&"must_go".into(), &Value::Null), "{open}");
    let page = String::from_utf8(bar.run(&["due"]).stdout).unwrap();
    let row = page.lines().find(|row| row.contains(&mix)).unwrap_or_else(|| panic!("{page}"));
    assert!(row.contains("raw egg"), "{page}");
    assert!(page.contains(&syrup), "{page}");
    bar.lot(&["mix.toml", "--part", &format!("House syrup={syrup}")]);
    let page = String::from_utf8(bar.run(&["due"]).stdout).unwrap();
    assert!(!page.contains(&syrup), "all of it went in: {page}");
}

const NUT_RUM: &str = "name = \"Nut rum\"\n[[stage]]\nname = \"steeped\"\ntakes = \"12 h\"\nat = \"21 °C\"\n[stage.parts]\n\"vodka\" = \"1 L\"\n\
                       peanuts = { amount = \"200 g\", strained = true, holds = 0.4 }\n[parts]\nsteeped = \"all\"\n\
                       [keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";
const NUT_MIX: &str = "name = \"Nut mix\"\n[parts]\n\"Nut rum\" = \"500 g\"\n\"vodka\" = \"100 g\"\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";

/// What turns rancid is no younger in a new bottle: by its lot, by its day and by `date` the mix keeps no longer than the rum in it.
#[test]
fn what_goes_stale_goes_on_in_a_new_bottle() {
    let bar = bar(&[("rum.toml", NUT_RUM), ("mix.toml", NUT_MIX)]);
    let (old, rum) = bar.record(&["rum.toml", "--made", &ago(40), "--fresh"]);
    let last = rum["use_by"]["day"].as_str().unwrap_or_else(|| panic!("{rum}"));
    let day = |told: &Value| told["use_by"]["day"].as_str().unwrap_or_else(|| panic!("{told}")).to_owned();
    let (_, by_lot) = bar.record(&["mix.toml", "--part", &format!("Nut rum={old}")]);
    assert_eq!(day(&by_lot), last, "{by_lot}");
    let (_, by_day) = bar.record(&["mix.toml", "--part", &format!("Nut rum={}", ago(40))]);
    assert_eq!(day(&by_day), last, "{by_day}");
    let dated = bar.json(&["date", "mix.toml", "--oldest-part", &ago(40)]);
    assert_eq!(dated["stores"][0]["date"], last, "{dated}");
    // of rum that was made today it has its own days
    let (_, fresh) = bar.record(&["mix.toml", "--part", &format!("Nut rum={}", ago(0))]);
    assert!(day(&fresh).as_str() > last, "{fresh}");
}

/// What is told of a part is looked at as what is recorded of it: a lot of another product is none of it, and a bottle that is stronger than
/// the card counts it makes another strength than the label says. By hand: 60 of 80 ml of rum at 40 % are 30 %, undiluted 40 %.
#[test]
fn a_lot_that_is_told_must_be_one_of_that_part_and_as_strong() {
    let drink = "name = \"Stir\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\n\"white rum 40 %\" = \"60 ml\"\n";
    let flask = format!("name = \"Flask\"\n[parts]\nStir = \"500 g\"\n\"white rum 40 %\" = \"250 g\"\n{KEPT}");
    let bar = bar(&[("stir.toml", drink), ("flask.toml", &flask), ("syrup.toml", SYRUP)]);
    bar.json(&["serve", "stir.toml", "--make", "10", "-o", "ahead.toml"]);
    bar.json(&["serve", "stir.toml", "--make", "10", "--undiluted", "-o", "neat.toml"]);
    let [whole, neat, syrup] = ["ahead.toml", "neat.toml", "syrup.toml"].map(|card| bar.lot(&[card]));
    let flask = bar.lot(&["flask.toml", "--part", &format!("Stir={whole}")]);
    let tell = |from: &str| bar.run(&["tell", &flask, &format!("Stir={from}")]);
    let out = tell(&syrup);
    assert_eq!(out.status.code(), Some(2), "{out:?}");
    assert!(said(&out).contains(&format!("lot {syrup} is House syrup, not Stir")), "{out:?}");
    let out = tell(&neat);
    assert!(out.status.success() && said(&out).contains("% vol, and lot"), "{out:?}");
    assert!(said(&out).contains(&format!("Stir, undiluted, lot {neat}, is 40.0 % vol")), "{out:?}");
    let out = tell(&whole);
    assert!(out.status.success() && !said(&out).contains("% vol, and lot"), "{out:?}");
}

/// A day that is written another way, or in words, is no number of a maker: taken for one, the part would have no day.
#[test]
fn a_day_that_is_written_another_way_is_offered_year_first() {
    let bar = bar(&[("syrup.toml", SYRUP), ("blend.toml", BLEND)]);
    let blend = bar.lot(&["blend.toml"]);
    let day = today();
    for written in
        [day.format("%d.%m.%Y").to_string(), day.format("%d/%m/%y").to_string(), day.format("%Y/%m/%d").to_string()]
    {
        let out = bar.run(&["tell", &blend, &format!("House syrup={written}")]);
        assert!(said(&out).contains(&format!("stillroom tell {blend} \"House syrup={day}\"")), "{written}: {out:?}");
        let out = bar.run(&["record", "blend.toml", "--part", &format!("House syrup={written}")]);
        assert!(!out.status.success() && said(&out).contains(&format!("year first, {day}")), "{written}: {out:?}");
        let out = bar.run(&["due", "--on", &written]);
        assert!(said(&out).contains(&format!("write it year first: --on {day}")), "{written}: {out:?}");
    }
    let out = bar.run(&["tell", &blend, "House syrup=yesterday"]);
    assert!(!out.status.success() && said(&out).contains("a day (2026-11-30)"), "{out:?}");
    let out = bar.run(&["tell", &blend, &format!("Huose syrup={day}")]);
    assert!(said(&out).contains(&format!("did you mean: stillroom tell {blend} \"House syrup={day}\"")), "{out:?}");
    // a number of a maker is one, with whatever dots
    bar.json(&["tell", &blend, "water=Spring 12.11.26"]);
}

/// A store and a drink that are nearly right are named.
#[test]
fn a_name_that_is_nearly_right_is_offered() {
    let stir = "name = \"Tin whistle\"\nhow = \"stirred\"\n[parts]\nvodka = \"60 ml\"\n";
    let bar = bar(&[("stir.toml", stir)]);
    let out = bar.run(&["serve", "Tin whistle", "--make", "10", "--store", "frezer"]);
    assert!(said(&out).contains("did you mean `freezer`?"), "{out:?}");
    let out = bar.run(&["serve", "whistel"]);
    assert!(said(&out).contains("did you mean `Tin whistle`?"), "{out:?}");
}

/// In the second bottle nothing is young again: rum of 40 days ago in a mix, and that in another, the one part of both. By hand, of the rum
/// that keeps for `all` days 40 are gone, 10 of them in the first mix: as great a share of the second is gone.
#[test]
fn what_goes_stale_goes_on_through_two_bottles() {
    let again = "name = \"Second mix\"\n[parts]\n\"Nut mix\" = \"500 g\"\n\"vodka\" = \"100 g\"\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";
    let bar = bar(&[("rum.toml", NUT_RUM), ("mix.toml", NUT_MIX), ("again.toml", again)]);
    let (old, rum) = bar.record(&["rum.toml", "--made", &ago(40), "--fresh"]);
    let last = rum["use_by"]["day"].as_str().unwrap_or_else(|| panic!("{rum}"));
    let mix = bar.lot(&["mix.toml", "--made", &ago(10), "--part", &format!("Nut rum={old}")]);
    let (lot, second) = bar.record(&["again.toml", "--part", &format!("Nut mix={mix}")]);
    assert_eq!(second["use_by"]["day"], last, "{second}");
    assert_eq!(bar.json(&["tell", &lot, &format!("Nut mix={mix}")])["use_by"]["day"], last);
    assert_eq!(bar.json(&["date", "again.toml", "--oldest-part", &ago(40)])["stores"][0]["date"], last);
    // and of rum of today it has its own days
    let fresh = bar.lot(&["rum.toml", "--fresh"]);
    let mix = bar.lot(&["mix.toml", "--part", &format!("Nut rum={fresh}")]);
    let (_, second) = bar.record(&["again.toml", "--part", &format!("Nut mix={mix}")]);
    assert!(second["use_by"]["day"].as_str() > Some(last), "{second}");
}

/// The seven days of the Food Code are those of the part that was prepared first, however many bottles it went through: made five days
/// ago, and that is day 1, it may be used today and tomorrow.
#[test]
fn the_count_of_what_needs_cold_runs_through_two_bottles() {
    let thin =
        |name: &str, of: &str| format!("name = \"{name}\"\n[parts]\n\"{of}\" = \"500 g\"\nwater = \"300 g\"\n{KEPT}");
    let honey = format!("name = \"Honey mix\"\n[parts]\nhoney = \"500 g\"\nwater = \"400 g\"\n{KEPT}");
    let (one, two) = (thin("Honey one", "Honey mix"), thin("Honey two", "Honey one"));
    let bar = bar(&[("honey.toml", &honey), ("one.toml", &one), ("two.toml", &two)]);
    let honey = bar.lot(&["honey.toml", "--in", "fridge", "--made", &ago(5)]);
    let of = |card: &str, part: String| bar.record(&[card, "--in", "fridge", "--part", &part]);
    let (first, told) = of("one.toml", format!("Honey mix={honey}"));
    assert_eq!(told["use_by"]["day"], ago(-1), "{told}");
    let (_, told) = of("two.toml", format!("Honey one={first}"));
    assert_eq!(told["use_by"]["day"], ago(-1), "{told}");
    // the same where the bottle inside was made of what only a day is told of
    let (first, _) = of("one.toml", format!("Honey mix={}", ago(4)));
    let (_, told) = of("two.toml", format!("Honey one={first}"));
    assert_eq!(told["use_by"]["day"], ago(-2), "{told}");
}

/// A spirit that was washed with butter keeps for months and has a "use by": its day is not that of the weak drink that it goes into,
/// which was mixed today, alone in it or beside others.
#[test]
fn the_day_of_a_washed_spirit_is_not_that_of_a_weak_drink() {
    let washed = format!(
        "name = \"Butter brandy\"\n[[stage]]\nname = \"buttered\"\ntakes = \"12 h\"\nat = \"4 °C\"\n[stage.parts]\n\"brandy\" = \"1 L\"\n\
         butter = {{ amount = \"100 g\", strained = true, holds = 0.1 }}\n[parts]\nbuttered = \"all\"\n{KEPT}"
    );
    let gate = "name = \"Gate\"\nhow = \"built\"\n[parts]\n\"Butter brandy\" = \"20 ml\"\nwater = \"100 ml\"\n";
    let jug = format!("name = \"Jug\"\n[parts]\nGate = \"500 g\"\nvodka = \"200 g\"\n{KEPT}");
    let weak = format!("name = \"Weak\"\n[parts]\n\"Butter brandy\" = \"100 g\"\nwater = \"900 g\"\n{KEPT}");
    let bar = bar(&[("washed.toml", &washed), ("gate.toml", gate), ("jug.toml", &jug), ("weak.toml", &weak)]);
    let brandy = bar.lot(&["washed.toml", "--in", "fridge", "--made", &ago(10), "--fresh"]);
    for card in ["jug.toml", "weak.toml"] {
        let (_, told) = bar.record(&[card, "--in", "fridge", "--part", &format!("Butter brandy={brandy}")]);
        let day = told["use_by"]["day"].as_str().unwrap_or_else(|| panic!("{told}"));
        assert!(day > ago(0).as_str(), "{told}");
    }
}
