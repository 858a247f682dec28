//! The bench page as it is written: what stands on it without a script, what stays out of it, what it may not write over, and
//! that nothing which somebody typed is more than text. What it does with a script is looked at in a browser
//! (`tests/browser`).

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use sha2::{Digest, Sha256};

use crate::kitchen::Kitchen;

fn demo() -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas").display().to_string()
}

fn run(kitchen: &Kitchen, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_stillroom")).args(arguments).current_dir(kitchen.folder()).output().unwrap()
}

fn read(kitchen: &Kitchen, name: &str) -> String {
    fs::read_to_string(kitchen.folder().join(name)).unwrap()
}

fn published(kitchen: &Kitchen, arguments: &[&str]) -> String {
    let out = run(kitchen, &[&["publish", "page.html", "--one-file"], arguments].concat());
    assert!(matches!(out.status.code(), Some(0 | 1)) && kitchen.folder().join("page.html").exists(), "{out:?}");
    read(kitchen, "page.html")
}

/// A folder with something in the place of the solver: what is carried is looked at, not run.
fn stub_solver(kitchen: &Kitchen) {
    fs::create_dir(kitchen.folder().join("solver")).unwrap();
    for (name, text) in [("solver.wasm.gz", "no wasm"), ("page.js", "void 0;\n"), ("keeper.js", "void 0;\n")] {
        kitchen.write(&format!("solver/{name}"), text);
    }
}

/// What is read of a page: its text, without its marks.
fn text_of(html: &str) -> String {
    let mut text = String::new();
    let mut rest = html;
    while let Some((before, after)) = rest.split_once('<') {
        text.push_str(before);
        rest = after.split_once('>').map_or("", |(_, after)| after);
    }
    text.push_str(rest);
    for (mark, letter) in [("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&#39;", "'"), ("&amp;", "&")] {
        text = text.replace(mark, letter);
    }
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_card_stands_on_the_page_without_a_script() {
    let kitchen = Kitchen::new("");
    let html = published(&kitchen, &[&demo()]);
    assert!(!html.contains("<script"), "a page without a solver has no script");
    assert!(text_of(&html).contains("can only be read"));
    let articles = articles(&html);
    let cards = fs::read_dir(demo()).unwrap().map(|file| file.unwrap().path());
    let not_cards = ["house.toml", "larder.toml", "plan.toml", "menu.toml"];
    let cards: Vec<_> = cards
        .filter(|path| path.extension().is_some_and(|end| end == "toml"))
        .filter(|path| !not_cards.iter().any(|name| path.ends_with(name)))
        .collect();
    // all of them, and the menu
    assert!(cards.len() > 20 && articles.len() == cards.len() + 1);
    for card in cards {
        // the words of the paper, from another verb; a drink is what a guest is served
        let is_drink = fs::read_to_string(&card).unwrap().contains("\nhow ");
        let verb = if is_drink { &["serve"][..] } else { &["card", "print"] };
        let told = run(&kitchen, &[verb, &[card.to_str().unwrap()]].concat());
        let told = String::from_utf8(told.stdout).unwrap();
        // what a glass costs stays at home, and so does the verb that says more
        let of_money = |line: &str| line.contains("cost") || line.contains("(ingredients only)");
        let told = told.lines().filter(|line| !is_drink || !of_money(line));
        let told = told.collect::<Vec<_>>().join(" ").replace("(--full)", "");
        let words: Vec<&str> =
            told.split_whitespace().filter(|word| !["[", "]", "☐", "-", "·"].contains(word)).collect();
        let has_all = |article: &&String| words.iter().filter(|word| !article.contains(**word)).count() == 0;
        assert!(words.len() > 20 && articles.iter().any(|article| has_all(&article)), "{}: {told}", card.display());
    }
}

/// The parts of the page, as they are read.
fn articles(html: &str) -> Vec<String> {
    html.split("<article ").skip(1).map(text_of).collect()
}

#[test]
fn the_menu_says_what_menu_says_and_prices_only_where_they_are_asked_for() {
    let kitchen = Kitchen::new("");
    let told = String::from_utf8(run(&kitchen, &["menu", &demo()]).stdout).unwrap();
    let (money, rest) = told.split_once("% vol").unwrap();
    // the marks stand in cells, the verb that says more stays behind
    let rest = rest.split_whitespace().collect::<Vec<_>>().join(" ").replace("stillroom serve DRINK", "");
    let words = |said: &str| {
        let words =
            said.split_whitespace().filter(|word| word.chars().any(char::is_alphanumeric) && !word.contains('/'));
        words.map(str::to_owned).collect::<Vec<_>>()
    };
    let menu = |html: &str| articles(html).into_iter().find(|text| text.starts_with("id=\"menu\"")).unwrap();
    let missing = |text: &str, said: &str| words(said).into_iter().filter(|w| !text.contains(w)).collect::<Vec<_>>();
    let rest = rest.split("certificate").next().unwrap();
    let html = published(&kitchen, &[&demo()]);
    assert_eq!(missing(&menu(&html), rest), Vec::<String>::new(), "{}", menu(&html));
    assert!(!html.contains("GBP") && !menu(&html).contains("10.50"), "no price");
    assert!(html.contains("<td class=\"contains\">C</td>") && html.contains("<td class=\"open\">?</td>"));
    let html = published(&kitchen, &[&demo(), "--with-costs"]);
    let (_, money) = money.split_once("drinks").unwrap();
    assert_eq!(missing(&menu(&html), money), Vec::<String>::new());
    // what is left out of it is said first
    kitchen.write("menu.toml", "[drink.\"Nothing\"]\nsold = 3\n");
    kitchen.write("syrup.toml", "name = \"Syrup\"\n[parts]\n\"white sugar\" = \"1 kg\"\nwater = \"1 kg\"\n");
    let said = menu(&published(&kitchen, &["."]));
    assert!(said.contains("Menu error: the house has no formula `Nothing`") && !said.contains("Allergens"), "{said}");
}

#[test]
fn the_book_of_lots_is_on_the_page_only_where_it_is_asked_for() {
    let kitchen = Kitchen::new("");
    let html = published(&kitchen, &[&demo()]);
    for theirs in ["261123-D1", "thrown away", "Ana"] {
        assert!(!html.contains(theirs), "{theirs}");
    }
    let html = published(&kitchen, &[&demo(), "--with-lots"]);
    let due = Command::new(env!("CARGO_BIN_EXE_stillroom")).arg("due").current_dir(demo()).output().unwrap();
    let due = String::from_utf8(due.stdout).unwrap();
    let pages = articles(&html);
    let board = pages.iter().find(|text| text.starts_with("id=\"board\"")).unwrap();
    let words: Vec<&str> = due.split_whitespace().filter(|word| !word.starts_with('-')).collect();
    assert!(words.len() > 20);
    let missing: Vec<_> = words.iter().filter(|word| !board.contains(**word)).collect();
    assert!(missing.is_empty() && board.contains("On any other day ask for a new page"), "{missing:?}: {board}");
    let lots = pages.iter().filter(|text| text.starts_with("id=\"lot-")).count();
    assert_eq!(lots, html.matches("href=\"#lot-").count());
    assert!(lots > 3);
}

// The banner stands without a script, on the product and on what it goes into, until nothing of that day is left.
#[test]
fn a_pulled_lot_asks_for_a_new_page_above_everything() {
    let kitchen = Kitchen::new("");
    kitchen.write("house.toml", "[house]\nname = \"The still\"\n");
    for name in ["Syrup", "Tincture"] {
        let card =
            "makes = \"1 L\"\n[target]\nbrix = 65\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";
        kitchen.write(&format!("{}.toml", name.to_lowercase()), &format!("name = \"{name}\"\n{card}"));
    }
    let glass = "name = \"Sling\"\nhow = \"built\"\n[parts]\n\"Syrup\" = \"20 ml\"\n\"soda water\" = \"100 ml\"\n";
    kitchen.write("sling.toml", glass);
    kitchen.write("menu.toml", "[drink.\"Sling\"]\nsold = 3\n");
    // it goes into a drink through another card as well
    kitchen.write("blend.toml", "name = \"Blend\"\n[parts]\n\"Syrup\" = \"500 g\"\nwater = \"500 g\"\n");
    let cooler = "name = \"Cooler\"\nhow = \"built\"\n[parts]\n\"Blend\" = \"40 ml\"\n\"soda water\" = \"100 ml\"\n";
    kitchen.write("cooler.toml", cooler);
    let stillroom = |arguments: &[&str]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_stillroom"));
        let config = kitchen.folder().join("device");
        let out =
            command.args(arguments).current_dir(kitchen.folder()).env("XDG_CONFIG_HOME", config).output().unwrap();
        assert!(matches!(out.status.code(), Some(0 | 1)), "{out:?}");
        String::from_utf8(out.stdout).unwrap()
    };
    let lot = |card: &str| {
        let told: serde_json::Value = serde_json::from_str(&stillroom(&["record", card, "--json"])).unwrap();
        told["lot"].as_str().unwrap().to_owned()
    };
    // what stands before everything else that is said of it
    let asks = |place: &str| {
        let html = published(&kitchen, &["."]);
        let mut articles = html.split("<article ");
        let article = articles.find(|part| part.starts_with(&format!("id=\"{place}\""))).unwrap();
        let above = article.split("<div class=\"top\">").next().unwrap();
        above.contains("Ask for a new page").then(|| text_of(above))
    };
    let (bad, good) = (lot("syrup.toml"), lot("syrup.toml"));
    assert_eq!(asks("card-syrup"), None);
    stillroom(&["taste", &bad, "off", "--signs", "film"]);
    for place in ["card-syrup", "drink-sling", "menu", "card-blend", "drink-cooler"] {
        let said = asks(place).unwrap();
        assert!(said.contains(&format!("Lot {bad} of Syrup was pulled: something grew in it")), "{said}");
    }
    assert_eq!(asks("card-tincture"), None);
    // a drink is poured of its bottles, and so is what is made with it
    let neat = "name = \"Neat\"\nhow = \"built\"\n[parts]\n\"Tincture\" = \"20 ml\"\n";
    kitchen.write("neat.toml", neat);
    let tall = "name = \"Tall\"\nhow = \"built\"\n[parts]\n\"Neat\" = \"20 ml\"\n\"soda water\" = \"100 ml\"\n";
    kitchen.write("tall.toml", tall);
    kitchen.write(
        "flask.toml",
        "name = \"Neat, batch\"\nmakes = \"1 L\"\npours = \"Neat\"\n[parts]\n\"Tincture\" = \"as needed\"\n",
    );
    let flask = lot("flask.toml");
    assert_eq!((asks("drink-neat"), asks("drink-tall")), (None, None));
    stillroom(&["discard", &flask, "--why", "haze in it"]);
    for place in ["drink-neat", "drink-tall"] {
        assert!(asks(place).is_some_and(|said| said.contains(&flask)), "{place}");
    }
    // thrown away it is gone, and the other of that day still stands there
    stillroom(&["discard", &bad, "--why", "the film on it"]);
    assert!(asks("card-syrup").is_some_and(|said| !said.contains("the film")));
    stillroom(&["use-up", &good]);
    assert!(asks("card-syrup").is_some() && asks("menu").is_some(), "bottles of it may stand on a shelf");
    lot("syrup.toml");
    assert_eq!((asks("card-syrup"), asks("menu")), (None, None), "there is a newer lot");
    // one thrown away before its date may be anything: who asks is told
    let (broken, beside) = (lot("tincture.toml"), lot("tincture.toml"));
    stillroom(&["discard", &broken, "--why", "glass in it"]);
    let said = asks("card-tincture").unwrap();
    assert!(said.contains("thrown away") && said.contains(&broken), "{said}");
    assert!(!said.contains("glass") && !said.contains(&beside), "{said}");
}

#[test]
fn a_stop_stands_first() {
    let kitchen = Kitchen::new("");
    kitchen.write(
        "oil.toml",
        "name = \"Garlic oil\"\nmakes = \"1 L\"\nsteps = [\"Leave it in a closed jar.\"]\n[parts]\n\"garlic\" = \"200 g\"\n\"olive oil\" = \"as needed\"\n",
    );
    let html = published(&kitchen, &["oil.toml"]);
    let top = html.split("<div class=\"top\">\n").nth(1).unwrap();
    assert!(top.starts_with("<p class=\"stop\">STOP"), "{}", &top[..300.min(top.len())]);
    assert!(html.contains("<b>STOP</b></a>"), "the list of cards says so too");
    let told = run(&kitchen, &["publish", "page.html", "--one-file", "oil.toml"]);
    assert_eq!(told.status.code(), Some(1), "{told:?}");
    assert!(String::from_utf8(told.stdout).unwrap().contains("STOP"));
}

#[test]
fn no_price_and_no_remark_gets_out() {
    let kitchen = Kitchen::new(
        "[ingredient.\"dear sugar\"]\nlike = \"white sugar\"\nprice = \"7.13 EUR / 1 kg\"\nnotes = \"from Hollis and Daughter\"\n",
    );
    kitchen.write(
        "house.toml",
        "[house]\nname = \"The still\"\ncurrency = \"EUR\"\n[costs]\nlabour = \"19.31 EUR / h\"\n# our Hollis\n",
    );
    kitchen.write(
        "syrup.toml",
        "name = \"Syrup\"   # 4.44 EUR at Hollis\nmakes = \"1 L\"\n[target]\nbrix = 50\n[parts]\n\"dear sugar\" = \"as needed\"\nwater = \"as needed\"\n",
    );
    stub_solver(&kitchen);
    let secrets = ["7.13", "19.31", "4.44", "EUR", "Hollis"];
    let html = published(&kitchen, &["syrup.toml", "--solver", "solver"]);
    assert!(html.contains("dear sugar") && html.contains("[ingredient"), "the solver has what the card is made of");
    for secret in secrets {
        assert!(!html.contains(secret), "{secret}");
    }
    let html = published(&kitchen, &["syrup.toml", "--solver", "solver", "--with-costs"]);
    assert!(html.contains("7.13 EUR / 1 kg") && text_of(&html).contains("batch"), "{html}");

    // the prices of the demo house
    let prices = ["house.toml", "larder.toml"].map(|name| fs::read_to_string(Path::new(&demo()).join(name)).unwrap());
    let html = published(&kitchen, &[&demo(), "--solver", "solver"]);
    let priced = prices.iter().flat_map(|text| text.lines()).filter(|line| line.contains("GBP"));
    let amounts: Vec<&str> = priced.filter_map(|line| line.split('"').find(|part| part.contains("GBP /"))).collect();
    assert!(amounts.len() > 20);
    assert!(!html.contains("GBP"), "a price of {amounts:?}");
}

#[test]
fn nothing_is_written_over_but_an_earlier_page() {
    let kitchen = Kitchen::new("");
    stub_solver(&kitchen);
    let card = format!("{}/plain-syrup.toml", demo());
    let publish = |out: &str| run(&kitchen, &["publish", out, &card, "--solver", "solver"]);
    // a new folder, and the same again
    for _ in 0..2 {
        let done = publish("site");
        assert_eq!(done.status.code(), Some(0), "{done:?}");
    }
    let mut names: Vec<_> =
        fs::read_dir(kitchen.folder().join("site")).unwrap().map(|f| f.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["icon.svg", "index.html", "manifest.webmanifest", "solver.js", "sw.js"]);
    // a file of somebody else where one of its own would stand: none is written
    kitchen.write("site/sw.js", "// mine\n");
    let before = read(&kitchen, "site/index.html");
    assert_eq!(publish("site").status.code(), Some(1));
    assert_eq!((read(&kitchen, "site/sw.js").as_str(), read(&kitchen, "site/index.html")), ("// mine\n", before));
    // a folder of something else, a file, a page that is none of ours
    kitchen.write("notes.txt", "mine");
    let refused = publish(".");
    assert!(
        refused.status.code() == Some(1) && String::from_utf8_lossy(&refused.stderr).contains("other things"),
        "{refused:?}"
    );
    assert_eq!(publish("notes.txt").status.code(), Some(1));
    kitchen.write("mine.html", "<!DOCTYPE html>\n<p>mine</p>");
    assert_eq!(run(&kitchen, &["publish", "mine.html", &card, "--one-file"]).status.code(), Some(1));
    assert_eq!(read(&kitchen, "mine.html"), "<!DOCTYPE html>\n<p>mine</p>");
    assert_eq!(run(&kitchen, &["publish", "page.txt", &card, "--one-file"]).status.code(), Some(2));
}

#[test]
fn what_was_typed_is_text() {
    let kitchen = Kitchen::new("");
    stub_solver(&kitchen);
    let long = "m".repeat(10_000);
    kitchen.write(
        "bad.toml",
        &format!(
            "name = \"</script><script>alert(1)</script> & \\\"x\\\"\"\nmakes = \"1 L\"\nsteps = [\"<img src=x onerror=alert(2)>\", \"{long}\", \"stir \\u202Egently\"]\n\
             [target]\nbrix = 50\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n"
        ),
    );
    kitchen.write(
        "bidi.toml",
        "name = \"Syrup \\u202Ereven\"\nmakes = \"1 L\"\n[target]\nbrix = 50\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n",
    );
    let html = published(&kitchen, &["bad.toml", "bidi.toml", "--solver", "solver"]);
    // only the scripts of the page itself: what is carried, and its own
    assert_eq!(html.matches("<script").count(), 2);
    assert_eq!(html.matches("</script").count(), 2);
    assert!(!html.contains("<img") && html.contains("&lt;img src=x onerror=alert(2)&gt;"));
    assert!(html.contains(&long), "nothing that was written is cut off");
    assert!(!html.contains('\u{202e}'), "nothing turns the text round");
    // the list, the cards, their heads: as many as there are cards
    assert_eq!((html.matches("<article ").count(), html.matches("<h2>").count()), (2, 2));
}

#[test]
fn the_browser_is_held_to_what_is_on_the_page() {
    let kitchen = Kitchen::new("");
    stub_solver(&kitchen);
    let html = published(&kitchen, &[&format!("{}/plain-syrup.toml", demo()), "--solver", "solver"]);
    let policy = html.split("Content-Security-Policy\" content=\"").nth(1).unwrap().split('"').next().unwrap();
    assert!(policy.starts_with("default-src 'none'") && !policy.contains("unsafe-inline"), "{policy}");
    let between = |from: &str, to: &str| html.split(from).nth(1).unwrap().split(to).next().unwrap().to_owned();
    for part in [between("<style>", "</style>"), between("<script>", "</script>")] {
        // base64 of the hash, by a table of its own
        let letters: Vec<char> = ('A'..='Z').chain('a'..='z').chain('0'..='9').chain(['+', '/']).collect();
        let bits: String =
            Sha256::digest(part.as_bytes()).iter().map(|byte| format!("{byte:08b}")).collect::<String>() + "00";
        let six = bits.as_bytes().chunks(6).map(|six| std::str::from_utf8(six).unwrap());
        let hash: String = six.map(|six| letters[usize::from_str_radix(six, 2).unwrap()]).collect();
        assert!(policy.contains(&format!("'sha256-{hash}='")), "{hash}: {policy}");
    }
    // nothing is taken from elsewhere
    for part in ["http://", "https://", "//cdn", " src=", "url("] {
        assert!(!html.contains(part), "{part}");
    }
}
