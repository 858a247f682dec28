-- The books of lots of a group of sites on one PostgreSQL server, 12 or newer. The owner of the database runs it once; it may
-- be run again:
--   stillroom lots sql postgres | psql -v ON_ERROR_STOP=1 --single-transaction DATABASE
-- Then a login for each site, and one for who reads:
--   create role the_still login password '...' in role stillroom_site;
--   create role the_manager login password '...' in role stillroom_manager;

set client_min_messages = warning;
create schema if not exists stillroom;
set search_path = 'stillroom';

-- An event is kept as its line stands in the book, byte for byte: jsonb keeps neither the order of keys nor how a number is
-- written. What is asked of it is asked of its body, which is made of the line and cannot differ from it.
create table if not exists lot_event (
  id text primary key,
  site text not null check (site <> ''),
  writer text not null check (writer ~ '^[A-Za-z0-9_-]{1,64}$'),
  line text not null check (position(chr(10) in line) = 0),
  body jsonb not null generated always as (line::jsonb) stored,
  pushed_at timestamptz not null default now(),
  check (body->>'id' is not distinct from id)
);

-- A code is one batch: with two of them a recall would follow the wrong one.
create unique index if not exists lot_event_recorded on lot_event ((body->>'lot')) where body->>'what' = 'recorded';
create index if not exists lot_event_withdrawn on lot_event ((body->>'event')) where body->>'what' = 'withdrawn';

-- What a lot was made from, under the SHA-256 of its text, as the book keeps it: each once, and none under another's name.
create table if not exists lot_sheet (
  hash text primary key,
  sheet text not null,
  pushed_at timestamptz not null default now(),
  check (encode(sha256(convert_to(sheet, 'UTF8')), 'hex') = hash)
);

-- Which lot went into which, by the event that says so: walking this is a recall; walking the bodies took minutes.
create table if not exists lot_link (
  parent text not null,
  child text not null,
  event text not null,
  primary key (parent, child, event)
);
create index if not exists lot_link_child on lot_link (child, parent);

-- It is filled from the events themselves, by the owner: who pushes can neither forget a link nor invent one.
create or replace function link_lots() returns trigger
language plpgsql security definer set search_path = stillroom, pg_temp as $$
begin
  insert into lot_link (parent, child, event)
  select part->>'lot', added.body->>'lot', added.id
  from added, jsonb_array_elements(added.body->'parts') part
  where added.body->>'what' = 'recorded' and part ? 'lot'
  union
  select added.body->'from'->>'lot', added.body->>'lot', added.id
  from added
  where added.body->>'what' = 'told' and added.body->'from' ? 'lot'
  on conflict do nothing;
  return null;
end $$;

drop trigger if exists link_lots on lot_event;
create trigger link_lots after insert on lot_event
referencing new table as added for each statement execute function link_lots();

-- What counts: everything that was not withdrawn, with the day that the clock of its house showed.
create or replace view lot_happening as
select id, site, writer, body->>'lot' as lot, body->>'what' as what, at_utc,
  (at_utc + coalesce((body->>'zone_min')::integer, 0) * interval '1 minute')::date as day, body
from (select *, (body->>'at')::timestamptz at time zone 'UTC' as at_utc from lot_event) event
where not exists (
  select from lot_event later where later.body->>'what' = 'withdrawn' and later.body->>'event' = event.id
);

-- Where a part was told twice to be from, both lots count: a recall is rather too wide.
create or replace view lot_into as
select parent, child from lot_link link
where not exists (
  select from lot_event later where later.body->>'what' = 'withdrawn' and later.body->>'event' = link.event
);

-- Everything that went into a lot and everything that it went into; one that nobody recorded here has no product.
--   select * from stillroom.lot_recall('261127-A1');
create or replace function lot_recall(code text)
returns table (way text, lot text, site text, product text, made date, store text)
language sql stable
-- step by step through the indexes: a chain of thousands of steps would else read the whole table at each of them
set enable_hashjoin = off set enable_mergejoin = off set enable_seqscan = off as $$
  with recursive
  origin(lot) as (
    select parent from stillroom.lot_into where child = code
    union select link.parent from origin join stillroom.lot_into link on link.child = origin.lot
  ),
  use(lot) as (
    select child from stillroom.lot_into where parent = code
    union select link.child from use join stillroom.lot_into link on link.parent = use.lot
  ),
  reached(way, lot) as (
    select 'it', code
    union all select 'went into it', origin.lot from origin where origin.lot <> code
    union all select 'it went into', use.lot from use where use.lot <> code
  )
  select way, reached.lot, site, body->>'product', (body->>'made')::date, body->>'store'
  from reached
  left join stillroom.lot_event event on event.body->>'lot' = reached.lot and event.body->>'what' = 'recorded'
$$;
