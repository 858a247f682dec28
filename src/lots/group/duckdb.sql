-- The same views over the books themselves, with DuckDB: in the folder of a house, or in one that holds the folders of several.
--   stillroom lots sql duckdb > book.sql
--   duckdb -init book.sql -c "from stillroom.due_by_site"
-- A line that cannot be read is passed over here; `stillroom due` names it with its place.

create schema if not exists stillroom;
set search_path = 'stillroom';

-- What is there twice is one. A site is the folder that its book lies in; of what was pulled from others only the device that
-- wrote it is known, where their own folder is not there as well.
create or replace view lot_event as
select id, writer, coalesce(case when pulled then null else site end, 'device ' || writer) as site, body
from (
  select *, row_number() over (partition by id order by pulled, filename) as nth
  from (
    select body, body->>'id' as id, filename,
      filename like '%.by-%' as pulled,
      regexp_extract(filename, '([A-Za-z0-9_-]*)[^/\\]*$', 1) as writer,
      coalesce(nullif(regexp_extract(filename, '([^/\\]+)[/\\]lots[/\\][^/\\]*$', 1), ''), 'this one') as site
    from read_json('**/lots/*.jsonl', format = 'newline_delimited', records = false, columns = {body: 'JSON'},
      ignore_errors = true, filename = true)
  ) as line
  where id is not null
) as event
where nth = 1;

create or replace view lot_happening as
select id, site, writer, body->>'lot' as lot, body->>'what' as what, at_utc,
  (at_utc + to_minutes(coalesce((body->>'zone_min')::integer, 0)))::date as day, body
from (select *, (body->>'at')::timestamp as at_utc from lot_event) as event
where id not in (select body->>'event' from lot_event where (body->>'what') = 'withdrawn');

create or replace view lot_into as
select distinct parent, child
from (
  select unnest((body->'parts')::json[])->>'lot' as parent, lot as child from lot_happening where what = 'recorded'
  union all
  select body->'from'->>'lot', lot from lot_happening where what = 'told'
) as link
where parent is not null;
