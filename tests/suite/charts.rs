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
        // A letter is on average less than 0.6 of its size wide; 800 pixels are drawn four times as fine.
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
            assert!(right <= 3200.0, "{card}: {words}");
        }
    }
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
    for verb in ["date", "cost"] {
        let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_stillroom"));
        let run = command.args([verb, "x.toml", "--chart", "x.svg"]).current_dir(house.folder()).output().unwrap();
        assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
        let svg = std::fs::read_to_string(house.folder().join("x.svg")).unwrap();
        let title = svg.lines().find(|line| line.starts_with("The rather long name")).unwrap();
        let shows = if verb == "date" { "…: expected life" } else { "…: where the money goes" };
        assert!(title.trim_end().ends_with(shows) && !title.contains("shorter"), "{title}");
        assert!(!svg.contains(long), "a name of a bar, too");
    }
}
