
-- A site adds events and reads them, a manager reads; neither changes nor removes one.
do $$
begin
  if not exists (select from pg_roles where rolname = 'stillroom_site') then create role stillroom_site nologin; end if;
  if not exists (select from pg_roles where rolname = 'stillroom_manager') then create role stillroom_manager nologin; end if;
end $$;
revoke all on schema stillroom from public, stillroom_site, stillroom_manager;
revoke all on all tables in schema stillroom from public, stillroom_site, stillroom_manager;
grant usage on schema stillroom to stillroom_site, stillroom_manager;
grant select on all tables in schema stillroom to stillroom_site, stillroom_manager;
grant insert (id, site, writer, line) on lot_event to stillroom_site;
grant insert (hash, sheet) on lot_sheet to stillroom_site;
