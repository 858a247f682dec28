//! What goes to the server and what comes from it: whole lines, each once, all of them or none.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use postgres::{Client, GenericClient};

use crate::lots::event::{Event, Happened};
use crate::lots::files::lines::{BookLine, is_writer};

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
}

/// Adds the events of this site that the server does not have, in one transaction.
///
/// # Errors
/// Where the server refuses or goes away: then it has none of them.
pub fn push(client: &mut Client, site: &str, lines: &[BookLine]) -> Result<Transfer, GroupFault> {
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
    for line in own.into_iter().filter(|line| missing.contains(&line.event.id)) {
        if has_nul(&line.text) {
            carried.unfit.push((line.event.id.clone(), "it holds a character that no database keeps (\\u0000)"));
        } else if !carried.doubles.contains(&line.event.lot) {
            fit.push(line);
        }
    }
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

/// Reads the events of all sites that this folder does not have.
///
/// # Errors
/// Where the server refuses or goes away.
pub fn pull(client: &mut Client, lines: &[BookLine]) -> Result<Pulled, GroupFault> {
    let own: HashSet<&str> = lines.iter().map(|line| line.event.id.as_str()).collect();
    let ids = client.query("select id from stillroom.lot_event", &[])?;
    let ids: Vec<String> = ids.into_iter().map(|row| row.get(0)).collect();
    let mut of = Transfer { looked_at: ids.len(), ..Transfer::default() };
    let missing: Vec<&str> = ids.iter().map(String::as_str).filter(|id| !own.contains(id)).collect();
    of.doubles = doubles(recorded(lines), &there(client)?);
    let mut pulled: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for batch in missing.chunks(BATCH) {
        let select = "select id, writer, line from stillroom.lot_event where id = any($1) order by writer, id";
        for row in client.query(select, &[&batch])? {
            let (id, writer, line): (String, String, String) = (row.get(0), row.get(1), row.get(2));
            // Whatever a server says, it names no other file than that of a writer, and no line becomes two.
            match serde_json::from_str::<Event>(&line) {
                Ok(event) if event.id == id && is_writer(&writer) && !line.contains('\n') => {
                    if !of.doubles.contains(&event.lot) {
                        pulled.entry(writer).or_default().push(line);
                        of.carried += 1;
                    }
                }
                _ => of.unfit.push((id, "this version of the program cannot read it")),
            }
        }
    }
    Ok(Pulled { of, lines: pulled })
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
