-- The record of a hub: programmes, their teams and devices, and the events that devices share.
-- Runs on PostgreSQL 15 and later, embedded or as a server.

-- Every request of a device runs as this role. It cannot log in.
do $$
begin
  if not exists (select from pg_roles where rolname = 'firstdark_device') then
    begin
      create role firstdark_device nologin;
    exception when duplicate_object or unique_violation then
      null; -- Another hub of this server has just made it.
    end;
  end if;
  if not (select rolsuper from pg_roles where rolname = current_user) then
    begin
      execute format('grant firstdark_device to %I', current_user);
    exception when insufficient_privilege or invalid_grant_operation then
      null; -- Whoever runs the server has granted it, or `set role` will say so.
    end;
  end if;
end $$;
grant usage on schema firstdark to firstdark_device;

create table firstdark.programme (
  id uuid primary key default gen_random_uuid(),
  name text not null,
  made timestamptz not null default now()
);
create unique index programme_name on firstdark.programme (lower(name));

-- `is_everyone`: what concerns the whole programme; every device of it reads that team.
create table firstdark.team (
  id uuid primary key default gen_random_uuid(),
  programme uuid not null references firstdark.programme,
  name text not null,
  is_everyone boolean not null default false,
  made timestamptz not null default now()
);
create unique index team_name on firstdark.team (programme, lower(name));
create unique index one_everyone on firstdark.team (programme) where is_everyone;

-- The place of the newest event of a team. Whoever adds events holds its row until they are
-- committed, so that places become visible in their order and no reader can skip one.
create table firstdark.team_sequence (
  team uuid primary key references firstdark.team,
  programme uuid not null references firstdark.programme,
  last bigint not null default 0
);

create table firstdark.invitation (
  id uuid primary key default gen_random_uuid(),
  programme uuid not null references firstdark.programme,
  secret_hash text not null unique, -- SHA-256, hexadecimal
  role text not null check (role in ('lead', 'sitter', 'permit holder', 'reader')),
  person text, -- whoever joins by it is known as this person
  made timestamptz not null default now(),
  made_by uuid, -- a device; null: whoever runs the hub
  expires timestamptz not null,
  used timestamptz,
  used_by uuid,
  withdrawn timestamptz
);
create index invitation_programme on firstdark.invitation (programme);

create table firstdark.invitation_team (
  invitation uuid not null references firstdark.invitation,
  team uuid not null references firstdark.team,
  position int not null,
  primary key (invitation, team)
);

create table firstdark.device (
  id uuid primary key default gen_random_uuid(),
  programme uuid not null references firstdark.programme,
  name text not null, -- what the device stamps on its events
  person text not null,
  label text,
  role text not null check (role in ('lead', 'sitter', 'permit holder', 'reader')),
  key_hash text not null unique, -- SHA-256, hexadecimal
  joined timestamptz not null default now(),
  last_seen timestamptz,
  last_sent timestamptz,
  events_sent bigint not null default 0,
  read_up_to bigint not null default 0, -- events that it said it has
  revoked timestamptz,
  revoked_reason text
);
create unique index device_name on firstdark.device (programme, name) where revoked is null;
create index device_person on firstdark.device (programme, lower(person));

create table firstdark.device_team (
  device uuid not null references firstdark.device,
  team uuid not null references firstdark.team,
  position int not null,
  primary key (device, team)
);

-- What one hub process tells the others and the commands: where the hub is reached.
create table firstdark.setting (
  name text primary key,
  value text not null
);

-- One row an event, never changed but for `vouched`. `body` is the event as it was sent, key for
-- key: `json`, as `jsonb` would refuse half a character and put the keys in another order.
create table firstdark.event (
  programme uuid not null,
  team uuid not null,
  seq bigint not null,
  id uuid not null,
  device uuid not null, -- the device whose key brought it
  person text not null, -- and its person
  vouched boolean not null, -- whether that is whom the event names as its author
  received timestamptz not null default now(),
  kind text not null,
  schema int not null,
  target uuid, -- the event that a correction or withdrawal speaks of
  body json not null,
  primary key (programme, id),
  unique (programme, team, seq)
) partition by list (programme);

-- Opens a programme with its team for everyone and its partition of the record.
create function firstdark.add_programme(in_name text) returns uuid
language plpgsql set search_path = firstdark, pg_temp as $$
declare
  new_programme uuid := gen_random_uuid();
  new_team uuid := gen_random_uuid();
  partition text := 'event_' || replace(new_programme::text, '-', '');
begin
  insert into programme (id, name) values (new_programme, in_name);
  insert into team (id, programme, name, is_everyone)
    values (new_team, new_programme, 'everyone', true);
  insert into team_sequence (team, programme) values (new_team, new_programme);
  execute format('create table firstdark.%I (like firstdark.event including all)', partition);
  -- Nobody comes at it but through the whole, whose policies hold.
  execute format('alter table firstdark.%I enable row level security', partition);
  execute format('alter table firstdark.%I force row level security', partition);
  execute format('alter table firstdark.event attach partition firstdark.%I for values in (%L)',
    partition, new_programme);
  return new_programme;
end $$;

create function firstdark.add_team(in_programme uuid, in_name text) returns uuid
language plpgsql set search_path = firstdark, pg_temp as $$
declare
  new_team uuid := gen_random_uuid();
begin
  insert into team (id, programme, name) values (new_team, in_programme, in_name);
  insert into team_sequence (team, programme) values (new_team, in_programme);
  return new_team;
end $$;
