-- The shelf: kinds of unit, where units stand, the units with their kits, what was done to them.

create sequence unit_kind_seq start with 1 increment by 50;
create table unit_kind (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  code varchar(32) not null,
  name varchar(120) not null,
  channels integer not null,
  connector varchar(32) not null,
  output_scale varchar(32) not null,
  charge_days integer,
  cell_type varchar(80),
  price numeric(12,4),
  lends_out boolean not null,
  constraint unit_kind_code unique (code),
  constraint unit_kind_ref unique (ref),
  constraint unit_kind_channels check (channels between 1 and 16)
);

-- What a new unit of the kind is packed with.
create sequence kind_part_seq start with 1 increment by 50;
create table kind_part (
  id bigint primary key,
  kind_id bigint not null references unit_kind (id),
  part varchar(32) not null,
  name varchar(120) not null,
  essential boolean not null,
  position integer not null
);
create index kind_part_kind on kind_part (kind_id);

create sequence storage_spot_seq start with 1 increment by 50;
create table storage_spot (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  location_id bigint not null references location (id),
  name varchar(80) not null,
  position integer not null,
  active boolean not null,
  constraint storage_spot_name unique (location_id, name),
  constraint storage_spot_ref unique (ref)
);

create sequence unit_seq start with 1 increment by 50;
create table unit (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  tag varchar(32) not null,
  tag_key varchar(32) not null,
  serial varchar(64) not null,
  kind_id bigint not null references unit_kind (id),
  location_id bigint not null references location (id),
  spot_id bigint references storage_spot (id),
  purpose varchar(32) not null,
  state varchar(32) not null,
  state_since timestamp(6) with time zone not null,
  state_reason varchar(500),
  needs_wipe boolean not null,
  needs_inspection boolean not null,
  wipe_counts_at timestamp(6) with time zone,
  reserved_kind varchar(32),
  reserved_id bigint,
  next_test_on date,
  charging_since timestamp(6) with time zone,
  charged_at timestamp(6) with time zone,
  use_counter integer,
  acquired_on date,
  retired_on date,
  owner_words varchar(200),
  constraint unit_tag unique (tag_key),
  constraint unit_ref unique (ref),
  constraint unit_serial unique (kind_id, serial)
);
create index unit_location on unit (location_id, state);
create index unit_spot on unit (spot_id);

create sequence kit_item_seq start with 1 increment by 50;
create table kit_item (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  unit_id bigint not null references unit (id),
  part varchar(32) not null,
  name varchar(120) not null,
  tag varchar(32),
  tag_key varchar(32),
  essential boolean not null,
  state varchar(32) not null,
  position integer not null,
  constraint kit_item_tag unique (tag_key),
  constraint kit_item_ref unique (ref)
);
create index kit_item_unit on kit_item (unit_id);

-- A unit is in one place: of all rows of a unit at most one holds its number in active_unit_id.
create sequence unit_use_seq start with 1 increment by 50;
create table unit_use (
  id bigint primary key,
  version integer not null,
  unit_id bigint not null references unit (id),
  active_unit_id bigint,
  use_kind varchar(32) not null,
  subject_id bigint not null,
  starts_at timestamp(6) with time zone not null,
  expected_end timestamp(6) with time zone,
  ended_at timestamp(6) with time zone,
  sessions integer,
  voided boolean not null,
  constraint unit_use_active unique (active_unit_id),
  constraint unit_use_active_is_unit check (active_unit_id is null or active_unit_id = unit_id),
  constraint unit_use_running check (active_unit_id is null or ended_at is null)
);
create index unit_use_unit on unit_use (unit_id, starts_at);
create index unit_use_subject on unit_use (use_kind, subject_id);

create sequence wipe_seq start with 1 increment by 50;
create table wipe (
  id bigint primary key,
  ref varchar(64),
  unit_id bigint not null references unit (id),
  product varchar(64) not null,
  contact_minutes integer not null,
  wiped_at timestamp(6) with time zone not null,
  counts_at timestamp(6) with time zone not null,
  done_by varchar(200) not null,
  note varchar(500),
  constraint wipe_ref unique (ref)
);
create index wipe_unit on wipe (unit_id, wiped_at);

create sequence inspection_seq start with 1 increment by 50;
create table inspection (
  id bigint primary key,
  ref varchar(64),
  unit_id bigint not null references unit (id),
  inspected_at timestamp(6) with time zone not null,
  passed boolean not null,
  done_by varchar(200) not null,
  note varchar(500),
  constraint inspection_ref unique (ref)
);
create index inspection_unit on inspection (unit_id, inspected_at);

create sequence inspection_answer_seq start with 1 increment by 50;
create table inspection_answer (
  id bigint primary key,
  inspection_id bigint not null references inspection (id),
  item varchar(64) not null,
  question varchar(300) not null,
  fine boolean not null
);
create index inspection_answer_inspection on inspection_answer (inspection_id);

create sequence safety_test_seq start with 1 increment by 50;
create table safety_test (
  id bigint primary key,
  ref varchar(64),
  unit_id bigint not null references unit (id),
  tested_on date not null,
  passed boolean not null,
  next_due_on date,
  tester varchar(200) not null,
  certificate varchar(120),
  note varchar(500),
  constraint safety_test_ref unique (ref)
);
create index safety_test_unit on safety_test (unit_id, tested_on);

create sequence charge_seq start with 1 increment by 50;
create table charge (
  id bigint primary key,
  ref varchar(64),
  unit_id bigint not null references unit (id),
  begun_at timestamp(6) with time zone,
  charged_at timestamp(6) with time zone,
  done_by varchar(200) not null,
  constraint charge_ref unique (ref)
);
create index charge_unit on charge (unit_id, charged_at);

create sequence unit_fault_seq start with 1 increment by 50;
create table unit_fault (
  id bigint primary key,
  ref varchar(64),
  unit_id bigint not null references unit (id),
  fault_kind varchar(32) not null,
  noticed_at timestamp(6) with time zone not null,
  words varchar(500) not null,
  told_by varchar(200) not null,
  constraint unit_fault_ref unique (ref)
);
create index unit_fault_unit on unit_fault (unit_id, noticed_at);
