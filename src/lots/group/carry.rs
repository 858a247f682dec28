//! What goes to the server and what comes from it: whole lines, each once, all of them or none.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use postgres::{Client, GenericClient};

use crate::lots::event::{Event, Happened};
use crate::lots::files::lines::{BookLine, is_writer};
use crate::lots::sheet::content_hash;

use super::server::GroupFault;

/// So many events go in one statement: large enough that the network does not count, a few MB of a bar's events.
const BATCH: usize = 5_000;

/// What was carried.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Transfer {
    /// Events that were looked at.
    pub looked_at: usize,
    /// Events that were not there and now are.
    pub carried: usize,
    /// Frozen sheets that were not there and now are.
    pub sheets: usize,
    /// Frozen sheets whose text is another than their name says: none of them was carried.
    pub unlike: Vec<String>,
    /// Codes that stand for two batches: nothing of them was carried.
    pub doubles: BTreeSet<String>,
    /// Events that cannot be carried, and why.
    pub unfit: Vec<(String, &'static str)>,
}

/// What was pulled: the lines that this folder does not have, by their writers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pulled {
    /// What of them.
    pub of: Transfer,
    /// The lines.
    pub lines: BTreeMap<String, Vec<String>>,
    /// The frozen sheets that this folder does not have, by their hashes.
    pub sheets: BTreeMap<String, String>,
}

/// Adds the events of this site that the server does not have, with the sheets that they name, in one transaction. `sheet` is
/// the text that this folder keeps under a hash.
///
/// # Errors
/// Where the server refuses or goes away: then it has none of them.
pub fn push(
    client: &mut Client,
    site: &str,
    lines: &[BookLine],
    sheet: impl Fn(&str) -> Option<String>,
) -> Result<Transfer, GroupFault> {
    let mut transaction = client.transaction()?;
    // One site after the other: two that give one code at once would not see each other. The number is drawn, and names this.
    transaction.execute("select pg_advisory_xact_lock(5217083349)", &[])?;
    let own: Vec<&BookLine> = lines.iter().filter(|line| !line.pulled).collect();
    let mut carried = Transfer { looked_at: own.len(), ..Transfer::default() };
    let ids: Vec<&str> = own.iter().map(|line| line.event.id.as_str()).collect();
    let missing = transaction.query(
        "select id from unnest($1::text[]) as own(id) where not exists (select from stillroom.lot_event there where there.id = own.id)",
        &[&ids],
    )?;
    let missing: HashSet<String> = missing.into_iter().map(|row| row.get(0)).collect();
    carried.doubles = doubles(recorded(lines), &there(&mut transaction)?);
    let mut fit: Vec<&BookLine> = Vec::new();
    for line in own.iter().copied().filter(|line| missing.contains(&line.event.id)) {
        if has_nul(&line.text) {
            carried.unfit.push((line.event.id.clone(), "it holds a character that no database keeps (\\u0000)"));
        } else if !carried.doubles.contains(&line.event.lot) {
            fit.push(line);
        }
    }
    push_sheets(&mut transaction, sheets_of(own.iter().map(|line| &line.event)), sheet, &mut carried)?;
    let insert = transaction.prepare(
        "insert into stillroom.lot_event (id, site, writer, line) \
         select id, $1::text, writer, line from unnest($2::text[], $3::text[], $4::text[]) as own(id, writer, line) \
         on conflict do nothing",
    )?;
    for batch in fit.chunks(BATCH) {
        let ids: Vec<&str> = batch.iter().map(|line| line.event.id.as_str()).collect();
        let writers: Vec<&str> = batch.iter().map(|line| line.writer.as_str()).collect();
        let texts: Vec<&str> = batch.iter().map(|line| line.text.as_str()).collect();
        let added = transaction.execute(&insert, &[&site, &ids, &writers, &texts])?;
        carried.carried += usize::try_from(added).unwrap_or(usize::MAX);
    }
    transaction.commit()?;
    Ok(carried)
}

/// The hashes of the sheets that batches were made from.
fn sheets_of<'a>(events: impl Iterator<Item = &'a Event>) -> BTreeSet<&'a str> {
    let hash = |event: &'a Event| match &event.happened {
        Happened::Recorded(recorded) => Some(recorded.sheet.as_str()),
        _ => None,
    };
    events.filter_map(hash).collect()
}

/// So many sheets go in one statement (ours): some tens of kilobytes each.
const SHEETS: usize = 100;

fn push_sheets(
    client: &mut impl GenericClient,
    hashes: BTreeSet<&str>,
    sheet: impl Fn(&str) -> Option<String>,
    carried: &mut Transfer,
) -> Result<(), postgres::Error> {
    let missing = client.query(
        "select hash from unnest($1::text[]) as own(hash) where not exists (select from stillroom.lot_sheet there where there.hash = own.hash)",
        &[&hashes.into_iter().collect::<Vec<_>>()],
    )?;
    let missing: Vec<String> = missing.into_iter().map(|row| row.get(0)).collect();
    for batch in missing.chunks(SHEETS) {
        let texts = batch.iter().filter_map(|hash| Some((hash, sheet(hash)?)));
        let (alike, unlike): (Vec<_>, Vec<_>) = texts.partition(|(hash, text)| content_hash(text) == **hash);
        carried.unlike.extend(unlike.into_iter().map(|(hash, _)| hash.clone()));
        let (hashes, texts): (Vec<&String>, Vec<String>) = alike.into_iter().unzip();
        let insert = "insert into stillroom.lot_sheet (hash, sheet) select * from unnest($1::text[], $2::text[]) on conflict do nothing";
        carried.sheets += usize::try_from(client.execute(insert, &[&hashes, &texts])?).unwrap_or(usize::MAX);
    }
    Ok(())
}

/// Reads the events of all sites that this folder does not have, and the sheets that lots name and it does not have.
///
/// # Errors
/// Where the server refuses or goes away.
pub fn pull(client: &mut Client, lines: &[BookLine], has: impl Fn(&str) -> bool) -> Result<Pulled, GroupFault> {
    let own: HashSet<&str> = lines.iter().map(|line| line.event.id.as_str()).collect();
    let ids = client.query("select id from stillroom.lot_event", &[])?;
    let ids: Vec<String> = ids.into_iter().map(|row| row.get(0)).collect();
    let mut of = Transfer { looked_at: ids.len(), ..Transfer::default() };
    let missing: Vec<&str> = ids.iter().map(String::as_str).filter(|id| !own.contains(id)).collect();
    of.doubles = doubles(recorded(lines), &there(client)?);
    let mut pulled: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let here = sheets_of(lines.iter().map(|line| &line.event));
    let mut hashes: BTreeSet<String> = here.into_iter().map(str::to_owned).collect();
    for batch in missing.chunks(BATCH) {
        let select = "select id, writer, line from stillroom.lot_event where id = any($1) order by writer, id";
        for row in client.query(select, &[&batch])? {
            let (id, writer, line): (String, String, String) = (row.get(0), row.get(1), row.get(2));
            // Whatever a server says, it names no other file than that of a writer, and no line becomes two.
            match Event::of_line(line.as_bytes()) {
                Ok(event) if event.id == id && is_writer(&writer) && !line.contains('\n') => {
                    if !of.doubles.contains(&event.lot) {
                        hashes.extend(sheets_of([&event].into_iter()).into_iter().map(str::to_owned));
                        pulled.entry(writer).or_default().push(line);
                        of.carried += 1;
                    }
                }
                _ => of.unfit.push((id, "this version of the program cannot read it")),
            }
        }
    }
    let sheets = pull_sheets(client, hashes.into_iter().filter(|hash| !has(hash)).collect(), &mut of)?;
    Ok(Pulled { of, lines: pulled, sheets })
}

fn pull_sheets(
    client: &mut Client,
    missing: Vec<String>,
    of: &mut Transfer,
) -> Result<BTreeMap<String, String>, postgres::Error> {
    let mut sheets = BTreeMap::new();
    for batch in missing.chunks(SHEETS) {
        for row in client.query("select hash, sheet from stillroom.lot_sheet where hash = any($1)", &[&batch])? {
            let (hash, sheet): (String, String) = (row.get(0), row.get(1));
            // whatever a server says, nothing is kept under a name that is not its own
            match content_hash(&sheet) == hash {
                true => drop(sheets.insert(hash, sheet)),
                false => of.unlike.push(hash),
            }
        }
    }
    of.sheets = sheets.len();
    Ok(sheets)
}

/// The batches of a folder: their codes, and the events that recorded them.
fn recorded(lines: &[BookLine]) -> impl Iterator<Item = (&str, &str)> {
    let batches = lines.iter().filter(|line| matches!(line.event.happened, Happened::Recorded(_)));
    batches.map(|line| (line.event.lot.as_str(), line.event.id.as_str()))
}

/// The batches that the server has: their codes, and the events that recorded them.
fn there(client: &mut impl GenericClient) -> Result<Vec<(String, String)>, postgres::Error> {
    let batches = "select body->>'lot', id from stillroom.lot_event where body->>'what' = 'recorded'";
    Ok(client.query(batches, &[])?.into_iter().map(|row| (row.get(0), row.get(1))).collect())
}

/// The codes of this folder that stand for two batches, here or there.
fn doubles<'a>(here: impl Iterator<Item = (&'a str, &'a str)>, there: &'a [(String, String)]) -> BTreeSet<String> {
    let mut first: HashMap<&str, &str> = HashMap::new();
    let there = there.iter().map(|(code, id)| (code.as_str(), id.as_str()));
    let mut twice = BTreeSet::new();
    for (code, id) in there.chain(here) {
        if *first.entry(code).or_insert(id) != id {
            twice.insert(code.to_owned());
        }
    }
    twice
}

/// Whether a text in a line holds the one character that PostgreSQL keeps in no text.
fn has_nul(line: &str) -> bool {
    fn within(value: &serde_json::Value) -> bool {
        match value {
            serde_json::Value::String(text) => text.contains('\0'),
            serde_json::Value::Array(all) => all.iter().any(within),
            serde_json::Value::Object(all) => all.iter().any(|(key, value)| key.contains('\0') || within(value)),
            _ => false,
        }
    }
    line.contains("\\u0000") && serde_json::from_str(line).is_ok_and(|value| within(&value))
}
