//! The gallery in `charts/` is what the program draws today; `STILLROOM_BLESS=1` draws it anew.

#[allow(dead_code)] // its `main` writes the files
#[path = "../../examples/gallery.rs"]
mod gallery;

#[test]
fn the_gallery_is_what_is_drawn_today() {
    for card in gallery::names() {
        let drawn = gallery::drawing(card).unwrap();
        let file = format!("{}/charts/{card}", env!("CARGO_MANIFEST_DIR"));
        if std::env::var_os("STILLROOM_BLESS").is_some() {
            std::fs::write(format!("{file}.svg"), &drawn).unwrap();
            std::fs::write(format!("{file}.png"), stillroom::render::chart::png(&drawn).unwrap()).unwrap();
        }
        let kept = std::fs::read_to_string(format!("{file}.svg")).unwrap();
        assert!(drawn == kept, "{card}: draw the gallery again (see DEVELOPERS.md) and look at it");
    }
}

#[test]
fn words_stay_on_the_sheet() {
    for card in gallery::names() {
        let svg = gallery::drawing(card).unwrap();
        let wide = svg.split("viewBox=\"0 0 ").nth(1).and_then(|rest| rest.split(' ').next()).unwrap();
        let wide: f64 = wide.parse().unwrap();
        // A letter is on average less than 0.6 of its size wide.
        for text in svg.split("<text ").skip(1) {
            let value = |key: &str| text.split(&format!("{key}=\"")).nth(1).and_then(|t| t.split('"').next()).unwrap();
            let (x, size): (f64, f64) = (value("x").parse().unwrap(), value("font-size").parse().unwrap());
            let words = text.split('>').nth(1).unwrap().split("</text").next().unwrap().trim();
            let width = 0.6 * size * words.chars().count() as f64;
            let right = match value("text-anchor") {
                "end" => x,
                "middle" => x + width / 2.0,
                _ => x + width,
            };
            assert!(right <= wide, "{card}: {words}");
        }
    }
}

// What is drawn of a card is said by its verb as well: where it holds, and what law asks of it.
#[test]
fn a_map_says_what_the_sheet_says() {
    let svg = gallery::drawing("rich-syrup-65-dissolved").unwrap();
    // saturated water holds 64.8 °Bx at 4 °C and 66.9 at 21 °C (Vavrinecz 1962): 65 crystallise in the one and not in the other
    for said in ["crystals form: fridge (4 °C), holds 64.8 °Bx", "clear: back bar (21 °C), holds 66.9 °Bx"] {
        assert!(svg.contains(said), "{said}: {svg}");
    }
    let svg = gallery::drawing("lime-and-clove-liqueur-strength").unwrap();
    assert!(svg.contains("from 15 % vol and 100 g/L") && svg.contains("check your local rule"), "{svg}");
    let svg = gallery::drawing("plain-syrup-square").unwrap();
    assert!(svg.contains("parts by weight"), "{svg}");
}

#[test]
fn a_verb_draws_what_it_speaks_of() {
    let house = crate::kitchen::Kitchen::new("");
    assert_eq!(house.run(&["square", "--strong", "63", "--target", "40", "--chart", "square.svg"]).0, Some(0));
    let svg = std::fs::read_to_string(house.folder().join("square.svg")).unwrap();
    for said in ["40 parts", "23 parts", "63 %", "water"] {
        assert!(svg.contains(said), "{said}: {svg}");
    }
    // beside other solids what water holds is known to 2 °Bx: nothing within that is called clear
    house.write(
        "dark.toml",
        "name = \"Dark\"\n[target]\nbrix = 66\n[parts]\n\"dark muscovado sugar\" = \"as needed\"\nwater = \"1 kg\"\n",
    );
    assert_eq!(house.run(&["solve", "dark.toml", "--chart", "dark.svg"]).0, Some(0));
    let svg = std::fs::read_to_string(house.folder().join("dark.svg")).unwrap();
    assert!(svg.contains("may form crystals: fridge (4 °C)"), "{svg}");
    house.write(
        "thin.toml",
        "name = \"Thin\"\n[parts]\n\"white sugar\" = \"10 g\"\nwater = \"500 g\"\n\"citric acid\" = \"2 g\"\n",
    );
    let (code, _, said) = house.run(&["solve", "thin.toml", "--chart", "thin.svg"]);
    assert!(code == Some(2) && said.contains("no chart"), "{said}");
    assert!(!house.folder().join("thin.svg").exists());
}

#[test]
fn a_long_name_stays_on_the_sheet() {
    let house = crate::kitchen::Kitchen::new("");
    let long = "The rather long name of a syrup that somebody thought of on a Sunday evening and never made shorter";
    house.write("house.toml", "[house]\ncurrency = \"GBP\"\n[costs]\nwater = \"1 GBP / 1 L\"\n");
    house.write(
        "larder.toml",
        &format!(
            "[ingredient.\"{long}\"]\nlike = \"white sugar\"\nprice = \"1 GBP / 1 kg\"\n\
         food = \"sold as food, label\"\n"
        ),
    );
    house.write("x.toml", &format!("name = \"{long} of all\"\n[parts]\n\"{long}\" = \"500 g\"\nwater = \"500 g\"\n"));
    for verb in ["date", "cost", "solve"] {
        let (code, _, said) = house.run(&[verb, "x.toml", "--chart", "x.svg"]);
        assert_eq!(code, Some(0), "{said}");
        let svg = std::fs::read_to_string(house.folder().join("x.svg")).unwrap();
        let title = svg.lines().find(|line| line.starts_with("The rather long name")).unwrap();
        let shows = match verb {
            "date" => "…: expected life",
            "cost" => "…: where the money goes",
            _ => "…: mixed from two",
        };
        assert!(title.trim_end().ends_with(shows) && !title.contains("shorter"), "{title}");
        assert!(!svg.contains(long), "a name of a bar, too");
    }
}

/// A name is cut to its room and not shorter: the words of a title end within 40 of the right edge of what is drawn, at 780.
#[test]
fn a_name_is_cut_to_its_room() {
    let house = crate::kitchen::Kitchen::new("");
    let title = |name: &str| {
        house.write("x.toml", &format!("name = '{name}'\n[parts]\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"\n"));
        let (code, _, said) = house.run(&["date", "x.toml", "--chart", "x.png"]);
        assert_eq!(code, Some(0), "{said}");
        let file = std::fs::File::open(house.folder().join("x.png")).unwrap();
        let mut reader = png::Decoder::new(std::io::BufReader::new(file)).read_info().unwrap();
        let mut dots = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut dots).unwrap();
        let (wide, each) = (info.width as usize, info.line_size / info.width as usize);
        // two dots to each unit of the drawing: the title stands between 8 and 36
        let is_dark = |x: usize, y: usize| dots[y * info.line_size + x * each] < 100;
        (0..wide).rev().find(|&x| (16..72).any(|y| is_dark(x, y))).unwrap() as f64 / 2.0
    };
    let short = title("Lime cordial");
    assert!((100.0..400.0).contains(&short), "{short}");
    for name in ["W".repeat(200), "i".repeat(400), "Sirop d\u{2019}été & <vanille> ".repeat(20)] {
        let end = title(name.trim());
        assert!(end <= 781.0 && end > 740.0, "{name}: {end}");
    }
}
