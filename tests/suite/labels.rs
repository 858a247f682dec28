//! Labels and cards on paper: their size, their letters, what stands on them and what is refused, measured on the layout and
//! on the picture of it. The code of a label is read back by another reader than the one that wrote it.

use std::path::Path;

use chrono::{NaiveDate, TimeDelta};

use stillroom::assessment::{Which, assess};
use stillroom::card;
use stillroom::house::{self, House};
use stillroom::render::print::{
    self, CardSize, LabelJob, LabelSize, PrintBox, PrintInk, PrintSheet, SMALLEST_PT, printable,
};
use stillroom::report::Report;
use stillroom::report::label::LabelView;
use stillroom::report::solve::SolveView;
use stillroom::shelf_life::Draws;
use stillroom::solver::{Options, solve};
use stillroom::units::celsius;
use stillroom::vocabulary::Word;

use crate::bar::{Bar, said, today};

const HOUSE: &str = "[house]\nname = \"The still\"\nmarket = [\"UK\"]\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\nfreezer = \"-18 °C\"\n";
const FOURTEEN: &str = "[\"celery\", \"crustaceans\", \"egg\", \"fish\", \"gluten_cereals (wheat)\", \"lupin\", \"milk\", \"molluscs\", \"mustard\", \"peanut\", \"sesame\", \"soy\", \"sulphites\", \"tree_nuts (almond)\"]";
const LONG: &str = "Burnt mandarin, pink peppercorn and slow toasted oat cordial";

impl Bar {
    /// A syrup of this name, of white sugar and something else.
    fn syrup(&self, name: &str, other: &str) -> &Self {
        self.kitchen.write(
            "syrup.toml",
            &format!(
                "name = \"{name}\"\nmakes = \"1 L\"\n[target]\nbrix = 66\n[parts]\n\"white sugar\" = \"as needed\"\n\
                 water = \"as needed\"\n{other}\n[keep]\nfill = \"cold\"\nclosed = true\n"
            ),
        );
        self
    }

    /// Why there is no label.
    fn refused(&self, arguments: &[&str]) -> String {
        let out = self.run(arguments);
        assert_eq!(out.status.code(), Some(1), "{out:?}");
        assert!(!self.kitchen.folder().join("no.pdf").exists());
        said(&out)
    }
}

/// A picture in grey: width, height, and how light each dot is.
fn picture(png: &[u8]) -> (usize, usize, Vec<u8>) {
    let mut reader = png::Decoder::new(std::io::Cursor::new(png)).read_info().unwrap();
    let mut dots = vec![0; reader.output_buffer_size().unwrap()];
    let info = reader.next_frame(&mut dots).unwrap();
    let light = |dot: &[u8]| {
        let colours = &dot[..dot.len().min(3)];
        (colours.iter().map(|&c| u16::from(c)).sum::<u16>() / colours.len() as u16) as u8
    };
    let grey = dots.chunks(info.color_type.samples()).map(light);
    (info.width as usize, info.height as usize, grey.collect())
}

/// What a camera reads off a picture.
fn code_of(png: &[u8]) -> Vec<String> {
    let (width, height, grey) = picture(png);
    let mut seen = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| grey[y * width + x]);
    seen.detect_grids().iter().map(|grid| grid.decode().unwrap().1).collect()
}

/// What a `<text>` of an SVG of ours says of itself: place, size in points, width, words.
fn texts(svg: &str) -> Vec<([f64; 2], f64, f64, String)> {
    let read = |text: &str| {
        let key = |key: &str| {
            text.split(&format!("{key}=\""))
                .nth(1)
                .and_then(|rest| rest.split('"').next())
                .unwrap()
                .parse::<f64>()
                .unwrap()
        };
        let words = text.split('>').nth(1).unwrap().split("</text").next().unwrap().to_owned();
        ([key(" x"), key(" y")], key("font-size") / print::MM_PER_POINT, key("textLength"), words)
    };
    svg.split("<text").skip(1).map(read).collect()
}

fn overlap(a: &PrintBox, b: &PrintBox) -> bool {
    // boxes are laid edge to edge, to the rounding of a float
    const TOUCH: f64 = 1e-6;
    a.x + a.width > b.x + TOUCH
        && b.x + b.width > a.x + TOUCH
        && a.y + a.height > b.y + TOUCH
        && b.y + b.height > a.y + TOUCH
}

/// Everything lies on the page, nothing over another, and no letter is too small.
fn is_sound(sheet: &PrintSheet, what: &str) {
    assert!(!sheet.pages.is_empty() && sheet.pages.iter().all(|boxes| !boxes.is_empty()), "{what}");
    for boxes in &sheet.pages {
        for (n, one) in boxes.iter().enumerate() {
            let inside = one.x >= 0.0
                && one.y >= 0.0
                && one.x + one.width <= sheet.size[0]
                && one.y + one.height <= sheet.size[1];
            assert!(inside, "{what}: {one:?}");
            if let PrintInk::Words { points, .. } = one.ink {
                assert!(points >= SMALLEST_PT, "{what}: {one:?}");
            }
            for other in &boxes[n + 1..] {
                assert!(!overlap(one, other), "{what}: {one:?} and {other:?}");
            }
        }
    }
}

#[test]
fn a_roll_label_is_what_a_printer_takes_and_its_code_is_read_back() {
    let bar = Bar::new(HOUSE, "");
    bar.syrup("House syrup", "");
    let lot = bar.lot(&["syrup.toml", "--make", "3 x 250 ml"]);
    let out = bar.run(&["label", &lot, "-o", "label.png"]);
    assert!(out.status.success(), "{out:?}");
    let (width, height, grey) = picture(&bar.file("label.png"));
    assert_eq!((width, height), (696, 271));
    // one picture is enough, however many containers there are
    assert!(!bar.kitchen.folder().join("label-2.png").exists());
    let date = bar.json(&["label", &lot])["use_by"]["day"].as_str().unwrap().to_owned();
    assert_eq!(code_of(&bar.file("label.png")), [format!("lot {lot}\nbest before {date}")]);
    // black on white, and nothing on the outermost dots of the sides
    assert!(grey.contains(&0) && grey.contains(&255));
    assert!((0..height).all(|y| [0, 1, width - 2, width - 1].iter().all(|x| grey[y * width + x] == 255)));
    // four light modules of four dots each all round the code
    let dark = |x: usize, y: usize| grey[y * width + x] < 128;
    let right = (width - 200..width).rev().find(|&x| (0..100).any(|y| dark(x, y))).unwrap();
    assert!(width - 1 - right >= 16, "{right}");
    assert!((0..16).all(|y| (width - 150..width).all(|x| !dark(x, y))));
}

#[test]
fn the_label_due_and_date_give_one_same_day() {
    let bar = Bar::new(HOUSE, "");
    bar.syrup("House syrup", "");
    let lot = bar.lot(&["syrup.toml"]);
    let label = bar.json(&["label", &lot]);
    let due = bar.json(&["due"]);
    let date = bar.json(&["date", "syrup.toml", "--store", "fridge"]);
    assert_eq!(label["use_by"]["day"], due["lots"][0]["use_by"]["day"]);
    assert_eq!(label["use_by"]["day"], date["stores"][0]["date"]);
    assert_eq!(bar.json(&["label", "syrup.toml"])["use_by"]["day"], date["stores"][0]["date"]);
    // the weekday after the day, as the text has it too
    let day: NaiveDate = label["use_by"]["day"].as_str().unwrap().parse().unwrap();
    let words = day.format("%-d %b %Y, %a").to_string();
    assert!(String::from_utf8(bar.run(&["label", &lot]).stdout).unwrap().contains(&words));
    // a card that is changed afterwards changes no label of a lot that is there
    bar.syrup("House syrup", "\"egg white\" = \"100 g\"");
    assert_eq!(bar.json(&["label", &lot])["use_by"]["day"], label["use_by"]["day"]);
}

#[test]
fn a_pdf_has_the_size_of_its_paper_and_its_text_is_found() {
    let bar = Bar::new(HOUSE, "");
    bar.syrup("House syrup", "");
    let lot = bar.lot(&["syrup.toml", "--make", "3 x 250 ml"]);
    for (size, [wide, high], pages) in
        [("roll", [62.0, 29.0], 3), ("large", [102.0, 152.0], 3), ("sheet", [210.0, 297.0], 1)]
    {
        let name = format!("{size}.pdf");
        let out = bar.run(&["label", &lot, "--size", size, "-o", &name]);
        assert!(out.status.success(), "{out:?}");
        let bytes = bar.file(&name);
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let boxes: Vec<&str> = text.split("/MediaBox").skip(1).collect();
        assert_eq!(boxes.len(), pages, "{size}");
        for media in boxes {
            let numbers = media.split(['[', ']']).nth(1).unwrap();
            let numbers: Vec<f64> = numbers.split_whitespace().map(|n| n.parse().unwrap()).collect();
            for (points, mm) in numbers[2..].iter().zip([wide, high]) {
                assert!((points * print::MM_PER_POINT - mm).abs() < 0.5, "{size}: {numbers:?}");
            }
        }
        assert!(text.contains("pdfuaid:part") && text.contains("/ToUnicode") && text.contains("/FontFile"), "{size}");
    }
}

#[test]
fn a_sheet_that_is_begun_goes_on_where_it_is_told() {
    let bar = Bar::new(HOUSE, "");
    bar.syrup("House syrup", "");
    let lot = bar.lot(&["syrup.toml"]);
    let places = |more: &[&str]| {
        let all = ["label", lot.as_str(), "--size", "sheet", "-o", "sheet.svg"];
        let arguments: Vec<&str> = all.iter().chain(more).copied().collect();
        let out = bar.run(&arguments);
        assert!(out.status.success(), "{out:?}");
        let all = texts(&bar.text("sheet.svg"));
        all.into_iter().filter(|(.., words)| words == "House syrup").map(|(place, ..)| place).collect::<Vec<_>>()
    };
    let first = places(&[])[0];
    let off = places(&["--start", "5", "--copies", "2", "--offset", "1 mm, -0.5 mm"]);
    let close = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-3, "{found} for {expected}");
    // the fifth is the middle of the second row, and the next to its right
    for (place, column) in off.iter().zip([1.0, 2.0]) {
        close(place[0], first[0] + column * (63.5 + 2.54) + 1.0);
        close(place[1], first[1] + 38.1 - 0.5);
    }
    let last = places(&["--start", "21"])[0];
    assert!(last[0] + 63.5 < 210.0 + 5.0 && last[1] + 38.1 < 297.0 + 5.0, "{last:?}");
    places(&["--start", "20", "--copies", "3"]);
    assert!(bar.kitchen.folder().join("sheet-2.svg").exists());
    let out = bar.run(&["label", &lot, "--start", "2"]);
    assert_eq!(out.status.code(), Some(2), "{out:?}");
}

#[test]
fn what_must_stand_on_it_is_never_shortened() {
    assert_eq!(LONG.len(), 60);
    let larder = format!("[ingredient.\"house dust\"]\nlike = \"white sugar\"\nallergens = {FOURTEEN}\n");
    let house = HOUSE.replace("UK", "US");
    let bar = Bar::new(&house, &larder);
    bar.syrup(LONG, "\"house dust\" = \"10 g\"\n\"lime juice\" = \"50 g\"");
    let lot = bar.lot(&["syrup.toml", "--fresh"]);
    for size in ["roll", "sheet", "large"] {
        let out = bar.run(&["label", &lot, "--size", size, "-o", &format!("{size}.svg")]);
        assert!(out.status.success(), "{size}: {out:?}");
        let mut words = String::new();
        let mut labels = 0;
        for n in 1..5 {
            let name = if n == 1 { format!("{size}.svg") } else { format!("{size}-{n}.svg") };
            if !bar.kitchen.folder().join(&name).exists() {
                break;
            }
            labels += 1;
            let svg = bar.text(&name);
            for (_, points, _, said) in texts(&svg) {
                assert!(points >= SMALLEST_PT - 1e-3, "{size}: {said}");
                words.push_str(&said);
                words.push(' ');
            }
        }
        for allergen in ["celery", "crustaceans", "gluten cereals (wheat)", "molluscs", "tree nuts (almond)"] {
            assert!(words.contains(allergen), "{size}: {allergen}: {words}");
        }
        for must in ["USE BY", "persons with weakened immune systems.", &format!("Lot {lot}")] {
            assert!(words.contains(must), "{size}: {must}: {words}");
        }
        assert_eq!(words.contains("label 1 of"), size != "large", "{size}: {words}");
        assert!(labels == 1 || size != "large");
        // the name loses nothing on the first label that has room for it
        assert!(words.starts_with("Burnt mandarin, pink peppercorn and slow toasted oat cordial "), "{size}: {words}");
    }
    assert!(
        code_of(&{
            bar.run(&["label", &lot, "-o", "long.png"]);
            bar.file("long.png")
        })[0]
            .starts_with(&format!("lot {lot}"))
    );
}

#[test]
fn what_is_stopped_undated_or_open_has_no_label() {
    let bar = Bar::new(HOUSE, "[ingredient.\"grey syrup\"]\nbrix = 60\nfood = \"sold as food, label\"\n");
    bar.syrup("House syrup", "\"lime juice\" = \"300 g\"");
    let lot = bar.lot(&["syrup.toml"]);
    assert!(bar.refused(&["label", &lot, "-o", "no.pdf"]).contains("it has no date: the day of lime juice"));
    assert!(bar.refused(&["label", "syrup.toml", "-o", "no.pdf"]).contains("hangs on what nobody has said"));
    assert!(bar.run(&["label", "syrup.toml", "--fresh"]).status.success());

    // moved to where it is refused a date: nothing is to be told, and it was in no freezer
    bar.syrup("House syrup", "\"whole milk\" = \"300 g\"");
    let warm = bar.lot(&["syrup.toml", "--fresh"]);
    let moved = bar.json(&["move", &warm, "back bar"]);
    assert!(moved["use_by"]["refused"].is_string(), "{moved}");
    let said = bar.refused(&["label", &warm, "-o", "no.pdf"]);
    assert!(
        said.contains("it has no date") && !said.contains("freezer") && !said.contains("tell what is missing"),
        "{said}"
    );
    let recalled = String::from_utf8(bar.run(&["recall", &warm]).stdout).unwrap();
    assert!(recalled.contains("THROW IT AWAY"), "{recalled}");

    bar.syrup("House syrup", "\"grey syrup\" = \"50 g\"");
    let lot = bar.lot(&["syrup.toml"]);
    assert!(bar.refused(&["label", &lot, "-o", "no.pdf"]).contains("allergens are not stated: grey syrup"));

    // a stop that hangs on how it is made: the sheet asks, who reads a label cannot
    bar.syrup("Fermented house syrup", "\"carrot juice\" = \"300 g\"");
    let said = bar.refused(&["label", "syrup.toml", "--fresh", "-o", "no.pdf"]);
    assert!(said.contains("no label: STOP until you answer: whether it is left to ferment"), "{said}");

    bar.syrup("House syrup", "\"oleander\" = \"5 g\"");
    let out = bar.run(&["label", "syrup.toml", "-o", "no.pdf"]);
    assert!(!out.status.success() && !bar.kitchen.folder().join("no.pdf").exists(), "{out:?}");

    bar.syrup("House syrup", "");
    let lot = bar.lot(&["syrup.toml"]);
    bar.run(&["taste", &lot, "off", "--signs", "gas"]);
    assert!(bar.refused(&["label", &lot, "-o", "no.pdf"]).contains("something grew in it"));
    let day = (today() - TimeDelta::days(900)).to_string();
    let lot = bar.lot(&["syrup.toml", "--made", &day]);
    assert!(bar.refused(&["label", &lot, "-o", "no.pdf"]).contains("was to be used by"));
    assert!(bar.refused(&["label", "syrup.toml", "--made", &day, "-o", "no.pdf"]).contains("was to be used by"));
    let out = bar.run(&["label", "261129-Q7"]);
    assert!(String::from_utf8_lossy(&out.stderr).contains("the book has no lot"), "{out:?}");
}

/// 60 g of nutmeg in half a litre are 4 g in a double measure; 2 ml of it hold less than the gram that is too much.
#[test]
fn a_dose_of_the_body_has_no_label_though_nobody_says_how_much_is_served() {
    for (serving, has_label) in [("", false), ("serving = \"50 ml\"\n", false), ("serving = \"2 ml\"\n", true)] {
        let bar = Bar::new("[stores]\nfridge = \"4 °C\"\n", "[ingredient.vodka]\nabv = 40\nallergens = []\n");
        let parts = "vodka = \"500 ml\"\nnutmeg = { amount = \"60 g\", strained = true }\n";
        bar.kitchen.write("x.toml", &format!("name = \"Mix\"\n{serving}[parts]\n{parts}"));
        let out = bar.run(&["label", "x.toml", "--fresh", "--in", "fridge"]);
        assert_eq!(out.status.success(), has_label, "{serving}{}", String::from_utf8_lossy(&out.stderr));
    }
}

#[test]
fn raw_juice_and_strength_are_said_where_a_market_wants_it() {
    let card = "name = \"Sour mix\"\n[parts]\n\"lime juice\" = \"300 g\"\n\"white sugar\" = \"500 g\"\nvodka = \"300 ml\"\n[keep]\nclosed = true\n";
    let said = |market: &str, keep: &str| {
        let bar = Bar::new(&HOUSE.replace("UK", market), "");
        bar.kitchen.write("sour.toml", &format!("{card}{keep}"));
        String::from_utf8(bar.run(&["label", "sour.toml", "--fresh", "--in", "fridge", "--size", "large"]).stdout)
            .unwrap()
            .replace("\n  ", " ")
    };
    let uk = said("UK", "");
    assert!(uk.contains("Contains raw juice") && uk.contains("% vol") && !uk.contains("WARNING"), "{uk}");
    let us = said("US", "for_sale = true\n");
    assert!(us.contains("WARNING: This product has not been pasteurized"), "{us}");
    assert!(us.contains("GOVERNMENT WARNING: (1) According to the Surgeon General"), "{us}");
    let not_sold = said("US", "for_sale = false\n");
    assert!(not_sold.contains("Contains raw juice") && !not_sold.contains("WARNING"), "{not_sold}");
}

/// A name that is typed to break out of the page, the drawing or the line.
#[test]
fn whatever_is_typed_is_text() {
    let bar = Bar::new(&HOUSE.replace("The still", "<i>The</i> & still"), "");
    bar.syrup("<script>alert('x')</script> & syrup", "");
    let lot = bar.lot(&["syrup.toml", "--by", "\u{202e}<b>Ana\u{1b}[31m"]);
    for file in ["label.svg", "label.pdf", "label.png"] {
        assert!(bar.run(&["label", &lot, "-o", file]).status.success(), "{file}");
    }
    bar.run(&["discard", &lot, "--why", "\"><img src=x onerror=alert(1)>\u{202e}"]);
    assert!(bar.run(&["recall", &lot, "--page", "lot.html"]).status.success());
    assert!(bar.run(&["card", "print", "syrup.toml", "-o", "card.html"]).status.success());
    for file in ["label.svg", "lot.html", "card.html"] {
        let text = bar.text(file);
        assert!(text.contains("&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; syrup"), "{file}: {text}");
        for raw in ["<script", "<b>", "<i>", "<img", "\u{202e}", "\u{1b}"] {
            assert!(!text.contains(raw), "{file}: {raw}");
        }
    }
    let page = bar.text("lot.html");
    assert!(page.contains("&quot;&gt;&lt;img"), "{page}");
    assert!(page.contains("default-src &#39;none&#39;") || page.contains("default-src 'none'"));
    // a page that somebody else wrote is not written over
    bar.kitchen.write("mine.html", "<!DOCTYPE html>\n<p>mine");
    assert_eq!(bar.run(&["recall", &lot, "--page", "mine.html"]).status.code(), Some(1));
    assert!(bar.text("mine.html").contains("mine"));
}

#[test]
fn a_script_that_has_to_be_shaped_is_refused_with_its_letter() {
    let bar = Bar::new(HOUSE, "");
    bar.syrup("شراب", "");
    let lot = bar.lot(&["syrup.toml"]);
    let said = bar.refused(&["label", &lot, "-o", "no.pdf"]);
    assert!(said.contains("`ش` is of a script whose letters have to be shaped") && said.contains("Latin"), "{said}");
    assert_eq!(printable("Sirop d\u{2019}\u{e9}rable").unwrap(), "Sirop d\u{2019}érable");
}

#[test]
fn the_page_of_a_lot_has_the_whole_chain() {
    let bar = Bar::new(HOUSE, "");
    bar.syrup("House syrup", "");
    bar.kitchen.write(
        "cordial.toml",
        "name = \"Lime cordial\"\nmakes = \"1 L\"\n[parts]\n\"lime juice\" = \"400 g\"\n\"House syrup\" = \"800 g\"\n",
    );
    let syrup = bar.lot(&["syrup.toml", "--read", "brix=65.8"]);
    let cordial = bar.lot(&["cordial.toml", "--fresh", "--by", "Ana"]);
    for lot in [&syrup, &cordial] {
        assert!(bar.run(&["recall", lot, "--page", "lot.html"]).status.success());
        let page = bar.text("lot.html");
        for must in [&*syrup, &*cordial, "The still", "lime juice", "by Ana", "65.8", "made, into the fridge"] {
            assert!(page.contains(must), "{must}: {page}");
        }
    }
}

#[test]
fn every_label_of_the_demo_lies_on_its_paper_and_nothing_on_another() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    let (house, _) = House::find(&folder);
    let made = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
    let mut labels = 0;
    for file in house::card_paths(&folder) {
        let source = house::read(&file).unwrap();
        let card = card::read_by(source.file, source.text, &house.customs()).0.unwrap();
        let solved = solve(&card, &house, &Options::default()).solved.unwrap();
        let (judged, _) = assess(&solved, &house, made, Which::Planned, Draws { draws: 200, ..Draws::default() });
        let Some(view) = LabelView::of_card(&solved, &judged, &house, 2).0 else { continue };
        for &size in LabelSize::ALL {
            let job = LabelJob { size, copies: 2, start: 0, offset: [0.0, 0.0] };
            let sheet = print::label(&view, job).unwrap();
            is_sound(&sheet, &format!("{} {size:?}", file.display()));
            print::pdf(&sheet).unwrap();
            labels += 1;
        }
    }
    assert!(labels > 45, "{labels}");
}

fn demo_card(file: &Path, house: &House, size: CardSize) -> PrintSheet {
    let source = house::read(file).unwrap();
    let card = card::read_by(source.file, source.text, &house.customs()).0.unwrap();
    let options = Options::default();
    let solved = solve(&card, house, &options).solved.unwrap();
    let made = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
    let (view, _) = SolveView::new(&card, &solved, house, options.asked(&card), celsius(20.0), made);
    let report = Report::new(Some(view), &[], |_| None).of_product(Some(&card.name.value));
    print::card(&report, size).unwrap_or_else(|why| panic!("{}: {why:?}", file.display()))
}

#[test]
fn every_demo_card_fits_one_side() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    let (house, _) = House::find(&folder);
    let cards = house::card_paths(&folder);
    assert!(cards.len() > 20);
    for file in &cards {
        for (size, page) in [(CardSize::A6, [105.0, 148.0]), (CardSize::A5, [148.0, 210.0])] {
            let sheet = demo_card(file, &house, size);
            assert_eq!((sheet.pages.len(), sheet.size), (1, page));
            is_sound(&sheet, &file.display().to_string());
            assert!(print::pdf(&sheet).is_ok(), "{}: {:?}", file.display(), print::pdf(&sheet));
            let words = |sheet: &PrintSheet| {
                let words = sheet.pages[0].iter().filter_map(|thing| match &thing.ink {
                    PrintInk::Words { words, .. } => Some(words.clone()),
                    _ => None,
                });
                words.collect::<Vec<_>>().join(" ")
            };
            let said = words(&sheet);
            assert!(said.contains("zero the scale, add") || said.contains("fine scale"), "{said}");
            assert!(said.to_lowercase().contains("allergens:"), "{said}");
        }
    }
}

#[test]
fn a_stop_is_the_largest_words_of_a_card() {
    let bar = Bar::new(HOUSE, "");
    bar.kitchen.write(
        "tea.toml",
        "name = \"Tonic\"\n[parts]\nwater = \"900 g\"\n\"cinchona bark\" = { amount = \"40 g\", strained = true, holds = 2 }\n\"white sugar\" = \"200 g\"\n",
    );
    let out = bar.run(&["card", "print", "tea.toml", "-o", "card.svg"]);
    assert!(bar.kitchen.folder().join("card.svg").exists(), "{out:?}");
    let all = texts(&bar.text("card.svg"));
    let largest = all.iter().map(|(_, points, ..)| *points).fold(0.0, f64::max);
    let stops: Vec<_> = all.iter().filter(|(_, points, ..)| (points - largest).abs() < 1e-3).collect();
    assert!(stops[0].3.starts_with("STOP"), "{all:?}");
    assert!(
        stops[0].0[1] <= all.iter().map(|(place, ..)| place[1]).fold(f64::MAX, f64::min),
        "it stands first: {all:?}"
    );
    assert_eq!(out.status.code(), Some(1), "and the command says so: {out:?}");
}

/// What is frozen says so, with the days that it has once it is thawed and until when it may lie there.
#[test]
fn a_frozen_lot_says_what_is_left_when_it_is_thawed() {
    let bar = Bar::new(HOUSE, "");
    bar.syrup("House syrup", "\"lime juice\" = \"300 g\"");
    let lot = bar.lot(&["syrup.toml", "--fresh"]);
    bar.run(&["move", &lot, "freezer"]);
    let said = bar.json(&["label", &lot]);
    let left = said["use_by"]["days_left_when_thawed"].as_u64().unwrap();
    assert!(left > 1, "{said}");
    for size in ["roll", "sheet", "large"] {
        let out = bar.run(&["label", &lot, "--size", size, "-o", "frozen.svg"]);
        assert!(out.status.success(), "{out:?}");
        let words: Vec<String> = texts(&bar.text("frozen.svg")).into_iter().map(|(.., words)| words).collect();
        let words = words.join(" ");
        for must in
            [&*format!("FROZEN · use within {left} days of thawing"), "thaw by ", "the day it is thawed is day 1"]
        {
            assert!(words.contains(must), "{size}: {must}: {words}");
        }
    }
}

/// What a card costs stands on it where it was asked for, and nowhere else.
#[test]
fn a_card_says_what_it_costs_if_asked() {
    let bar = Bar::new(
        &format!("{HOUSE}[costs]\nlabour = \"12 GBP / h\"\n").replace("market", "currency = \"GBP\"\nmarket"),
        "",
    );
    bar.kitchen
        .write("larder.toml", "[ingredient.\"white sugar\"]\nlike = \"white sugar\"\nprice = \"1.10 GBP / 1 kg\"\n");
    bar.kitchen.write(
        "syrup.toml",
        "name = \"Syrup\"\nlabour = \"10 min\"\n[parts]\n\"white sugar\" = \"1 kg\"\nwater = \"1 kg\"\n",
    );
    let words = |more: &[&str]| {
        let all: Vec<&str> = ["card", "print", "syrup.toml"].into_iter().chain(more.iter().copied()).collect();
        String::from_utf8(bar.run(&all).stdout).unwrap()
    };
    // 1.10 of sugar and ten minutes of twelve an hour; water costs nothing here
    let with = words(&["--cost"]);
    assert!(with.contains("Cost: 3.10 GBP the batch"), "{with}");
    assert!(!words(&[]).contains("Cost:"));
}

/// Sixty letters of a name, fourteen allergens, twenty parts: one side, and nothing of it is lost.
#[test]
fn a_card_of_twenty_parts_fits_one_side() {
    let part = |n: usize| format!("house powder number {n}");
    let mut larder: String =
        (1..20).map(|n| format!("[ingredient.\"{}\"]\nlike = \"white sugar\"\nallergens = []\n", part(n))).collect();
    larder += &format!("[ingredient.\"{}\"]\nlike = \"white sugar\"\nallergens = {FOURTEEN}\n", part(20));
    let bar = Bar::new(HOUSE, &larder);
    let parts: String = (1..=20).map(|n| format!("\"{}\" = \"{} g\"\n", part(n), 50 + n)).collect();
    bar.kitchen
        .write("long.toml", &format!("name = \"{LONG}\"\n[parts]\nwater = \"1 kg\"\n{parts}[keep]\nclosed = true\n"));
    for (size, page) in [("A6", [105.0, 148.0]), ("A5", [148.0, 210.0])] {
        let out = bar.run(&["card", "print", "long.toml", "--size", size, "-o", "long.svg"]);
        assert!(out.status.success(), "{size}: {out:?}");
        let all = texts(&bar.text("long.svg"));
        for ([x, y], points, width, words) in &all {
            assert!(*points >= SMALLEST_PT - 1e-3, "{size}: {points} of {words}");
            assert!(*x >= 0.0 && x + width <= page[0] && *y <= page[1], "{size}: {words}");
        }
        let words: Vec<String> = all.into_iter().map(|(.., words)| words).collect();
        let words = words.join(" ");
        for must in (1..=20).map(part).chain(["molluscs".into(), "tree nuts (almond)".into(), LONG.into()]) {
            assert!(words.contains(&must), "{size}: {must}: {words}");
        }
    }
}

/// What a program of this machine that draws PDF files makes of one; none where there is no such program.
fn rendered(program: &str, arguments: &[&str], bar: &Bar) -> Option<Vec<u8>> {
    let run = std::process::Command::new(program).args(arguments).current_dir(bar.kitchen.folder()).output();
    let Ok(out) = run else {
        eprintln!("skipped: {program} is not on this machine");
        return None;
    };
    assert!(out.status.success(), "{out:?}");
    Some(out.stdout)
}

/// The page as another program draws it: its size, every word inside, no letter below six points, the code read back.
#[test]
fn a_page_that_is_drawn_by_another_program_keeps_its_measures() {
    let larder = format!("[ingredient.\"house dust\"]\nlike = \"white sugar\"\nallergens = {FOURTEEN}\n");
    let bar = Bar::new(HOUSE, &larder);
    bar.syrup(LONG, "\"house dust\" = \"10 g\"");
    let lot = bar.lot(&["syrup.toml"]);
    for (size, mm, [left, right]) in [
        ("roll", [62.0, 29.0], [1.55, 60.45]),
        ("large", [102.0, 152.0], [5.0, 97.0]),
        ("sheet", [210.0, 297.0], [0.0, 210.0]),
    ] {
        let out = bar.run(&["label", &lot, "--size", size, "--copies", "1", "-o", "label.pdf"]);
        assert!(out.status.success(), "{out:?}");
        let Some(png) = rendered("pdftoppm", &["-r", "300", "-png", "-f", "1", "-l", "1", "label.pdf"], &bar) else {
            return;
        };
        let (width, height, grey) = picture(&png);
        for (dots, mm) in [width, height].into_iter().zip(mm) {
            assert!((dots as f64 * 25.4 / 300.0 - mm).abs() < 0.5, "{size}: {dots} dots for {mm} mm");
        }
        let mut seen = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| grey[y * width + x]);
        let codes: Vec<String> = seen.detect_grids().iter().map(|grid| grid.decode().unwrap().1).collect();
        assert_eq!(codes.len(), 1, "{size}");
        assert!(codes[0].starts_with(&format!("lot {lot}")), "{size}: {codes:?}");
        let Some(words) = rendered("pdftotext", &["-bbox", "label.pdf", "-"], &bar) else { return };
        let words = String::from_utf8(words).unwrap();
        let mut count = 0;
        for word in words.split("<word ").skip(1) {
            let key = |key: &str| -> f64 {
                let value = word.split(&format!("{key}=\"")).nth(1).and_then(|rest| rest.split('"').next());
                value.unwrap().parse::<f64>().unwrap()
            };
            let [x, to, y, down] = ["xMin", "xMax", "yMin", "yMax"].map(key);
            let mm_of = |points: f64| points * print::MM_PER_POINT;
            assert!(mm_of(x) >= left - 0.01 && mm_of(to) <= right + 0.01, "{size}: {word}");
            assert!(y >= 0.0 && mm_of(down) <= mm[1], "{size}: {word}");
            // the box of a word is as tall as its letters are said to be
            assert!(down - y >= SMALLEST_PT - 0.01, "{size}: {word}");
            count += 1;
        }
        assert!(count > 8, "{size}: {count} words");
    }
}

/// The bottle was there and its label was read a day later: what it says settles the lot. What stands on record never goes away.
#[test]
fn a_label_that_is_read_later_settles_what_was_open() {
    let entry = "[ingredient.\"grey syrup\"]\nbrix = 60\nfood = \"sold as food, label\"\n";
    let bar = Bar::new(HOUSE, entry);
    bar.syrup("House syrup", "\"grey syrup\" = \"50 g\"\n\"soy milk\" = \"50 g\"");
    let lot = bar.lot(&["syrup.toml", "--fresh"]);
    assert!(bar.refused(&["label", &lot]).contains("allergens are not stated: grey syrup"));
    bar.kitchen.write("larder.toml", &format!("{entry}allergens = [\"celery\"]\n"));
    let label = bar.json(&["label", &lot]);
    let allergens: Vec<&str> = label["allergens"].as_array().unwrap().iter().map(|a| a.as_str().unwrap()).collect();
    assert_eq!(allergens, ["celery", "soy"], "{label}");
    assert!(label.to_string().contains("not stated when the lot was recorded"), "{label}");
    // another entry that is still open leaves it open
    bar.kitchen.write("larder.toml", entry);
    assert!(bar.refused(&["label", &lot]).contains("grey syrup"));
}

/// What goes into the freezer when it is made has the days that it has once it is thawed, and a label that says so.
#[test]
fn what_is_frozen_when_it_is_made_has_a_label() {
    let bar = Bar::new(HOUSE, "");
    bar.syrup("House syrup", "\"lime juice\" = \"300 g\"");
    let (lot, told) = bar.record(&["syrup.toml", "--fresh", "--in", "freezer"]);
    assert!(told["use_by"]["days_left_when_thawed"].as_u64().is_some_and(|days| days > 0), "{told}");
    let label = bar.run(&["label", &lot]);
    assert!(label.status.success(), "{label:?}");
    // moved there on the same day it is the same
    let moved = bar.lot(&["syrup.toml", "--fresh", "--in", "fridge"]);
    let moved = bar.json(&["move", &moved, "freezer"]);
    assert_eq!(moved["use_by"]["days_left_when_thawed"], told["use_by"]["days_left_when_thawed"]);
}

/// What goes in for a guest is drunk with what is in the bottle: the egg of a sour that is bottled without it.
#[test]
fn the_allergens_of_what_goes_in_for_a_guest_stand_on_the_label() {
    let bar = Bar::new(HOUSE, "[ingredient.gin]\nlike = \"gin 40 %\"\nallergens = []\n");
    bar.kitchen.write(
        "sour.toml",
        "name = \"Sour, batch\"\nfor_a_guest = \"pour 98 ml, add 20 ml egg white, shake\"\n[parts]\ngin = \"500 ml\"\nwater = \"100 ml\"\n\
         \"white sugar\" = \"100 g\"\n",
    );
    let said = String::from_utf8(bar.run(&["label", "sour.toml", "--size", "large"]).stdout).unwrap();
    assert!(said.replace("\n  ", " ").contains("none named in it; for a guest also egg"), "{said}");
}

/// How a guest gets it, its strength, its day and its store stand on the paper of every size, on a second label where one is too small.
#[test]
fn what_is_done_for_a_guest_stands_on_the_label_that_is_printed() {
    let bar = Bar::new(HOUSE, "[ingredient.gin]\nlike = \"gin 40 %\"\nallergens = []\n");
    bar.kitchen.write(
        "sour.toml",
        "name = \"Marsh sour, batch\"\nfor_a_guest = \"pour 77.4 ml (75 g), add 25 ml lemon cordial, 15 ml egg white, shake hard \
         without ice, then shake with 200 g of ice cubes, strain, add 60 ml soda water\"\n[parts]\ngin = \"500 ml\"\nwater = \"100 ml\"\n\
         \"white sugar\" = \"100 g\"\n",
    );
    let lot = bar.lot(&["sour.toml", "--in", "fridge"]);
    for size in ["roll", "sheet", "large"] {
        // a sheet of several has them all on one page
        let out = bar.run(&["label", &lot, "--size", size, "-o", &format!("{size}.svg")]);
        assert!(out.status.success(), "{size}: {out:?}");
        let page = |n: usize| if n == 1 { format!("{size}.svg") } else { format!("{size}-{n}.svg") };
        let pages = (1..5).map(page).filter(|name| bar.kitchen.folder().join(name).exists());
        let words: Vec<String> = pages.flat_map(|name| texts(&bar.text(&name))).map(|(.., words)| words).collect();
        let words = words.join(" ");
        for must in
            ["pour 77.4 ml", "15 ml egg white", "200 g of ice cubes", "60 ml soda water", "alc. ", "made ", "fridge"]
        {
            assert!(words.contains(must), "{size}: {must}: {words}");
        }
    }
}

/// What goes in for a guest is told wherever the allergens of a bottle are: by `record`, and by the plan.
#[test]
fn record_and_plan_say_the_allergens_of_the_glass() {
    let bar = Bar::new(HOUSE, "[ingredient.gin]\nlike = \"gin 40 %\"\nallergens = []\n");
    bar.kitchen.write(
        "sour.toml",
        "name = \"Sour\"\nhow = \"shaken\"\nwater = \"30 g\"\n[parts]\ngin = \"50 ml\"\n\"white sugar\" = \"10 g\"\n\"egg white\" = \"15 ml\"\n",
    );
    bar.kitchen.write("plan.toml", "[plan]\ndays = 7\n[product.\"Sour, batch\"]\nuse = \"1 L a week\"\n");
    assert!(bar.run(&["serve", "sour.toml", "--make", "10", "-o", "batch.toml"]).status.success());
    let (lot, told) = bar.record(&["batch.toml"]);
    assert_eq!(told["allergens_for_a_guest"], serde_json::json!(["egg"]), "{told}");
    let plan = bar.json(&["plan"]);
    let product = plan["products"].as_array().unwrap().iter().find(|product| product["of"] == "Sour, batch");
    assert_eq!(product.unwrap()["allergens_for_a_guest"], serde_json::json!(["egg"]), "{plan}");
    for page in [bar.run(&["plan"]), bar.run(&["recall", &lot])] {
        let page = String::from_utf8(page.stdout).unwrap();
        assert!(page.contains("for a guest also egg"), "{page}");
    }
}
