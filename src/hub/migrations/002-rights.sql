-- Who may see and add what. A request runs as `firstdark_device`, with the device that asks in the
-- setting `firstdark.device`; the policies below follow from that alone.

create function firstdark.asking_device() returns uuid
language sql stable set search_path = firstdark, pg_temp as $$
  select nullif(current_setting('firstdark.device', true), '')::uuid
$$;

-- The four below say nothing (null, or no team) for a device that was revoked.
create function firstdark.asking_programme() returns uuid
language sql stable security definer set search_path = firstdark, pg_temp as $$
  select programme from device where id = asking_device() and revoked is null
$$;

create function firstdark.asking_person() returns text
language sql stable security definer set search_path = firstdark, pg_temp as $$
  select person from device where id = asking_device() and revoked is null
$$;

create function firstdark.asking_name() returns text
language sql stable security definer set search_path = firstdark, pg_temp as $$
  select name from device where id = asking_device() and revoked is null
$$;

create function firstdark.readable_teams() returns uuid[]
language sql stable security definer set search_path = firstdark, pg_temp as $$
  select coalesce(array_agg(team.id), '{}')
  from device join team on team.programme = device.programme
  where device.id = asking_device() and device.revoked is null
    and (team.is_everyone or device.role = 'lead' or exists (
      select from device_team where device_team.device = device.id and device_team.team = team.id))
$$;

-- A reader adds nothing; the others add to what they read.
create function firstdark.writable_teams() returns uuid[]
language sql stable security definer set search_path = firstdark, pg_temp as $$
  select case when exists (
      select from device where id = asking_device() and role <> 'reader')
    then readable_teams() else '{}' end
$$;

-- Begins a batch: the place of the team's newest event, with its row locked until the commit.
-- Null when the device may not add to that team.
create function firstdark.open_batch(in_team uuid) returns bigint
language sql volatile security definer set search_path = firstdark, pg_temp as $$
  select last from team_sequence
  where team = in_team and programme = asking_programme() and in_team = any (writable_teams())
  for update
$$;

-- Ends a batch. It writes also when nothing was added: then the commit waits, like any other, until
-- the replicas hold what the device is about to be told is on record.
create function firstdark.close_batch(in_team uuid, added int) returns void
language sql volatile security definer set search_path = firstdark, pg_temp as $$
  update team_sequence set last = last + added
  where added > 0 and team = in_team and programme = asking_programme()
    and in_team = any (writable_teams());
  update device set events_sent = events_sent + added, last_sent = now(), last_seen = now()
  where id = asking_device();
$$;

-- Events of the whole programme under some ids: the hub compares bodies also with those that the
-- device does not read. It is told whether they are the same, never what they say.
create function firstdark.on_record(ids uuid[])
returns table (id uuid, vouched boolean, body text)
language sql stable security definer set search_path = firstdark, pg_temp as $$
  select event.id, event.vouched, event.body::text from event
  where event.programme = (select asking_programme()) and event.id = any (ids)
$$;

-- The one change to an event: its own device sent it after somebody else had brought it.
create function firstdark.vouch(ids uuid[]) returns void
language sql volatile security definer set search_path = firstdark, pg_temp as $$
  update event set vouched = true
  where event.programme = (select asking_programme()) and event.id = any (ids) and not vouched
    and body ->> 'author' = (select asking_person()) and body ->> 'device' = (select asking_name())
$$;

revoke all on all functions in schema firstdark from public;
grant execute on function
  firstdark.asking_device(), firstdark.asking_programme(), firstdark.asking_person(),
  firstdark.asking_name(), firstdark.readable_teams(), firstdark.writable_teams(),
  firstdark.open_batch(uuid), firstdark.close_batch(uuid, int), firstdark.on_record(uuid[]),
  firstdark.vouch(uuid[])
to firstdark_device;

grant select on firstdark.programme, firstdark.team, firstdark.team_sequence to firstdark_device;
grant select, insert on firstdark.event to firstdark_device;

-- Forced: the owner of the tables is bound as well. For what it does in its own name (keys,
-- invitations, teams) it has a policy of its own; of events it sees nothing unless a device asks.
do $$
declare
  name text;
begin
  foreach name in array array['programme', 'team', 'team_sequence', 'invitation',
    'invitation_team', 'device', 'device_team', 'setting', 'event']
  loop
    execute format('alter table firstdark.%I enable row level security', name);
    execute format('alter table firstdark.%I force row level security', name);
    if name <> 'event' then
      execute format(
        'create policy the_hub on firstdark.%I to current_user using (true) with check (true)', name);
    end if;
  end loop;
end $$;

create policy own on firstdark.programme for select to firstdark_device
  using (id = (select firstdark.asking_programme()));
create policy own on firstdark.team for select to firstdark_device
  using (programme = (select firstdark.asking_programme()));
create policy own on firstdark.team_sequence for select to firstdark_device
  using (team = any ((select firstdark.readable_teams())::uuid[]));

create policy reading on firstdark.event for select to firstdark_device
  using (programme = (select firstdark.asking_programme())
    and team = any ((select firstdark.readable_teams())::uuid[]));
create policy writing on firstdark.event for insert to firstdark_device
  with check (programme = (select firstdark.asking_programme())
    and team = any ((select firstdark.writable_teams())::uuid[])
    and device = (select firstdark.asking_device())
    and person = (select firstdark.asking_person())
    and case when vouched then body ->> 'id' = id::text
        and body ->> 'author' = person
        and body ->> 'device' = (select firstdark.asking_name())
      else true end);

-- For the functions above, which run as the owner on behalf of a device.
create policy comparing on firstdark.event for select to current_user
  using (programme = (select firstdark.asking_programme()));
create policy vouching on firstdark.event for update to current_user
  using (programme = (select firstdark.asking_programme()))
  with check (programme = (select firstdark.asking_programme()));
