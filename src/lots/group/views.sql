
-- What a manager reads. It is written in what PostgreSQL and DuckDB have in common, and stands over `lot_happening` and
-- `lot_into` alone. A day is that of the clock of who asks.

-- A lot after all that happened to it. What a lot went into that is off, or was thrown away for what pulls, is off as well.
create or replace view lot as
with recursive
made as (select * from lot_happening where what = 'recorded'),
dated as (
  select distinct on (lot) lot, body->'use_by' as use_by
  from lot_happening where what in ('recorded', 'opened', 'moved', 'told')
  order by lot, case when what = 'recorded' then 1 else 0 end, at_utc desc, id desc
),
moved as (
  select distinct on (lot) lot, body->>'to' as store
  from lot_happening where what = 'moved' order by lot, at_utc desc, id desc
),
opened as (select lot, min(day) as day from lot_happening where what = 'opened' group by lot),
ended as (
  select distinct on (lot) lot, what, day, body->>'why' as why, body->>'cause' as cause
  from lot_happening where what in ('used_up', 'discarded') order by lot, at_utc desc, id desc
),
tasted as (
  select distinct on (lot) lot, body->>'taste' as taste
  from lot_happening where what = 'tasted' order by lot, at_utc desc, id desc
),
labelled as (
  select distinct on (lot) lot, day, (body->>'day')::date as says
  from lot_happening where what = 'labelled' order by lot, at_utc desc, id desc
),
accepted as (
  select distinct on (lot) lot, (body->>'days')::integer as days
  from lot_happening where what = 'accepted' order by lot, at_utc desc, id desc
),
grew_in as (
  select lot, min(day) as day from lot_happening
  where what = 'tasted' and ((body->>'signs') like '%"gas"%' or (body->>'signs') like '%"haze"%'
    or (body->>'signs') like '%"film"%' or (body->>'signs') like '%"mould"%' or (body->>'signs') like '%"swollen cap"%')
    or what = 'discarded' and (body->>'cause') in ('gas', 'haze', 'film', 'mould', 'swollen cap')
  group by lot
),
-- Where something grew in a lot, every other of its product ends before that age, the day made being day 1: so many days
-- after it was made.
grew_at as (
  select lower(made.body->>'product') as product, min(grew_in.day - (made.body->>'made')::date) as age
  from grew_in join made on made.lot = grew_in.lot
  group by lower(made.body->>'product')
),
grew as (select product, cast(case when age < 2 then 0 else age - 2 end as integer) as days from grew_at),
off as (
  select lot from tasted where taste = 'off'
  union
  select lot from grew_in
  union
  select lot from ended where what = 'discarded' and cause in ('sour', 'off', 'unsafe')
  union
  -- before its date, and nobody said for what
  select ended.lot from ended join dated on dated.lot = ended.lot left join tasted on tasted.lot = ended.lot
  where ended.what = 'discarded' and ended.cause is null and coalesce(tasted.taste, '') <> 'going'
    and case when dated.use_by->>'day' is null then dated.use_by->>'refused' is null
      else ended.day < (dated.use_by->>'day')::date end
),
gone_with(lot) as (
  select lot from off
  union
  select link.child from gone_with join lot_into link on link.parent = gone_with.lot
)
select made.site, made.lot, made.body->>'product' as product, (made.body->>'made')::date as made,
  made.body->>'recipe' as recipe, made.body->>'store' as first_store, coalesce(moved.store, made.body->>'store') as store,
  moved.store is not null and moved.store <> (made.body->>'store') as moved,
  (made.body->>'mass_g')::double precision as mass_g,
  case ended.what when 'used_up' then 'used up' when 'discarded' then 'discarded' else 'in use' end as standing,
  coalesce(ended.day, (made.body->>'made')::date) as since, ended.why as discarded_because, opened.day as opened,
  least((dated.use_by->>'day')::date,
    case when dated.use_by->>'day' is not null then (made.body->>'made')::date + grew.days end
  ) as use_by,
  (dated.use_by->>'best_before') = 'true' as best_before,
  case when (dated.use_by->>'day')::date > (made.body->>'made')::date + grew.days
    then 'a lot of it spoiled at this age' else dated.use_by->>'because' end as because, dated.use_by->>'refused' as refused,
  coalesce((dated.use_by->>'not_told') = 'true', false) as not_told,
  (dated.use_by->>'days_left_when_thawed') is not null as frozen, (dated.use_by->>'thaw_by')::date as thaw_by,
  gone_with.lot is not null as off, labelled.day as labelled, labelled.says as label_says, accepted.days as accepted_days
from made
join dated on dated.lot = made.lot
left join moved on moved.lot = made.lot
left join opened on opened.lot = made.lot
left join ended on ended.lot = made.lot
left join gone_with on gone_with.lot = made.lot
left join labelled on labelled.lot = made.lot
left join accepted on accepted.lot = made.lot
left join grew on grew.product = lower(made.body->>'product');

-- What is due, site by site, what must go first.
create or replace view due_by_site as
select site, substr(soon, 3) as due, lot, product, store, use_by, use_by - current_date as days_left, opened, because, refused
from (
  select *,
    case
      when off or thaw_by < current_date or use_by < current_date then '1 must go'
      when use_by = current_date then '3 today'
      when use_by - current_date <= 6 then '4 this week'
      when use_by is not null then '5 later'
      when not_told then '2 no date'
      when refused is not null then '1 must go'
      when frozen then '6 frozen'
      else '2 no date'
    end as soon
  from lot where standing = 'in use'
) as standing_there
order by site, soon, use_by, made, lot;

-- What was thrown away, product by product. The book does not say how much was left of a lot: at most all of it.
create or replace view waste_by_product as
select product, site, count(*) as lots, cast(sum(mass_g) / 1000 as decimal(18, 3)) as made_kg,
  sum(case when standing = 'discarded' then 1 else 0 end) as lots_discarded,
  cast(sum(case when standing = 'discarded' then mass_g else 0 end) / 1000 as decimal(18, 3)) as discarded_at_most_kg,
  cast(100.0 * sum(case when standing = 'discarded' then mass_g else 0 end) / nullif(sum(mass_g), 0) as decimal(9, 1))
    as discarded_at_most_pct,
  string_agg(distinct discarded_because, '; ' order by discarded_because) as because
from lot
group by product, site
order by discarded_at_most_kg desc, product, site;

-- How long lots stayed good, product by product, by what was looked at and what was finished in time: of one recipe in one
-- store, lots that were moved left out. What these ages teach of a date: stillroom learn.
create or replace view life_by_product as
with looked as (
  select lot.lot, day - made as age,
    case when what = 'used_up' then 'fine' when what = 'tasted' then body->>'taste' end as taste
  from lot join lot_happening on lot_happening.lot = lot.lot
  where not exists (
    select 1 from lot_happening other
    where other.lot = lot.lot and other.what = 'moved' and (other.body->>'to') <> lot.first_store
  )
),
refused as (select lot, min(age) as age from looked where taste in ('going', 'off') group by lot),
fine as (
  select looked.lot, max(looked.age) as age
  from looked left join refused on refused.lot = looked.lot
  where taste = 'fine' and (refused.age is null or looked.age < refused.age)
  group by looked.lot
)
select product, first_store as store, count(*) as lots, count(refused.age) as lots_refused,
  max(coalesce(fine.age, 0)) as oldest_fine_days, min(refused.age) as first_refused_days,
  percentile_cont(0.5) within group (order by coalesce(refused.age, fine.age)) as median_days_seen,
  count(distinct lot.site) as sites, recipe
from lot
left join fine on fine.lot = lot.lot
left join refused on refused.lot = lot.lot
where refused.age > 0 or (refused.age is null and fine.age > 0)
group by product, first_store, recipe
order by product, store, recipe;
