//! A group of sites with a hundred thousand events on one server: push, push again, recall, the views, pull. By hand, for it
//! needs a server: `.ci/with-postgres cargo bench --features group --bench group`.

use std::time::Instant;

use stillroom::lots::files::lines;
use stillroom::lots::group;

#[allow(dead_code, unused_imports)]
#[path = "../tests/group.rs"]
mod sites;

use sites::{Database, Site, batch, happened};

fn main() {
    let Some(mut database) = Database::new("many") else { return };
    let mut all = Vec::new();
    for n in 0..40_000_u32 {
        let code = |n: u32| format!("261120-M{n}");
        let of: Vec<String> = [n / 2, n.saturating_sub(7)].into_iter().filter(|of| *of < n).map(code).collect();
        all.push(batch(&format!("m-{n}"), &code(n), &of.iter().map(String::as_str).collect::<Vec<_>>()));
    }
    for n in 0..60_000_u32 {
        let lot = format!("261120-M{}", n % 40_000);
        all.push(happened(&format!("m-t{n}"), "2026-11-21T09:00:00Z", &lot, r#""what":"tasted","taste":"fine""#));
    }
    let site = Site::new("Many", &all);
    let lines = lines::read(&site.folder).unwrap().0;
    let mut client = group::connect(&database.site).unwrap();
    let timed = |what: &str, start: Instant| eprintln!("{what}: {:.2} s", start.elapsed().as_secs_f64());
    let start = Instant::now();
    assert_eq!(group::push(&mut client, "Many", &lines, |_| None).unwrap().carried, 100_000);
    timed("push of 100,000", start);
    let start = Instant::now();
    assert_eq!(group::push(&mut client, "Many", &lines, |_| None).unwrap().carried, 0);
    timed("again", start);
    database.owner.batch_execute("analyze").unwrap();
    for lot in ["261120-M0", "261120-M20000", "261120-M39999"] {
        let start = Instant::now();
        let rows = client.query("select * from stillroom.lot_recall($1)", &[&lot]).unwrap().len();
        timed(&format!("recall of {lot}, {rows} lots"), start);
    }
    for view in ["due_by_site", "waste_by_product", "life_by_product"] {
        let start = Instant::now();
        client.query(&format!("select * from stillroom.{view}"), &[]).unwrap();
        timed(view, start);
    }
    let empty = Site::new("ManyPulled", &[]);
    let start = Instant::now();
    let pulled = empty.carry("pull", &database);
    timed("pull of 100,000, the command", start);
    assert_eq!(pulled["added"], 100_000);
    assert_eq!(empty.lines(), site.lines());
}
