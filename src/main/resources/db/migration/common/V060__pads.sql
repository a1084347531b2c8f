-- Pads: their types, lots, the ledger of packs, the sets patients use, orders and counts.

create sequence pad_type_seq start with 1 increment by 50;
create table pad_type (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  code varchar(32) not null,
  name varchar(120) not null,
  shape varchar(16) not null,
  width_mm integer not null,
  height_mm integer not null,
  connector varchar(40) not null,
  pads_per_pack integer not null,
  sets_per_pouch integer not null,
  rated_uses integer not null,
  open_days integer not null,
  price numeric(12,4) not null,
  supplier varchar(120),
  lead_days integer not null,
  packs_per_case integer not null,
  minimum_order integer not null,
  order_cost numeric(12,4),
  holding_cost numeric(12,4),
  shelf_days integer not null,
  active boolean not null,
  constraint pad_type_code unique (code),
  constraint pad_type_ref unique (ref),
  constraint pad_type_pads check (pads_per_pack between 1 and 1000),
  constraint pad_type_case check (packs_per_case between 1 and 1000)
);

-- Product numbers on packs and cases, learned when they are first scanned in.
create table pad_identifier (
  device_identifier varchar(60) primary key,
  pad_type_id bigint not null references pad_type (id)
);
create index pad_identifier_type on pad_identifier (pad_type_id);

-- A lot number is the maker's and may hold any sign, so a lot is named by its id.
create sequence pad_lot_seq start with 1 increment by 50;
create table pad_lot (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  pad_type_id bigint not null references pad_type (id),
  lot_number varchar(60) not null,
  expires_on date not null,
  udi varchar(400),
  state varchar(16) not null,
  state_reason varchar(300),
  state_since timestamp(6) with time zone,
  constraint pad_lot_number unique (pad_type_id, lot_number),
  constraint pad_lot_ref unique (ref)
);
create index pad_lot_expiry on pad_lot (pad_type_id, expires_on);

-- Whole, sealed packs in the cupboard; changed only together with a movement.
create table stock_balance (
  lot_id bigint not null references pad_lot (id),
  location_id bigint not null references location (id),
  packs integer not null,
  primary key (lot_id, location_id),
  constraint stock_balance_not_below_zero check (packs >= 0)
);
create index stock_balance_location on stock_balance (location_id);

create sequence supply_order_seq start with 1 increment by 50;
create table supply_order (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  location_id bigint not null references location (id),
  supplier varchar(120),
  ordered_on date not null,
  expected_on date,
  state varchar(16) not null,
  note varchar(300),
  ordered_by varchar(200) not null,
  constraint supply_order_ref unique (ref)
);
create index supply_order_location on supply_order (location_id, state);

create sequence supply_order_line_seq start with 1 increment by 50;
create table supply_order_line (
  id bigint primary key,
  version integer not null,
  order_id bigint not null references supply_order (id),
  pad_type_id bigint not null references pad_type (id),
  packs integer not null,
  delivered integer not null,
  cancelled integer not null,
  price numeric(12,4) not null,
  constraint supply_order_line_once unique (order_id, pad_type_id),
  constraint supply_order_line_packs check (packs >= 1 and delivered >= 0 and cancelled >= 0)
);
create index supply_order_line_type on supply_order_line (pad_type_id);

-- The ledger. Lines are only added; a mistake is reversed once, by a line that names it.
create sequence stock_movement_seq start with 1 increment by 50;
create table stock_movement (
  id bigint primary key,
  ref varchar(64),
  lot_id bigint not null references pad_lot (id),
  pad_type_id bigint not null references pad_type (id),
  location_id bigint not null references location (id),
  packs integer not null,
  reason varchar(32) not null,
  drawer_reason varchar(32),
  note varchar(300),
  later_lot_reason varchar(300),
  loan_id bigint,
  patient_id bigint references patient (id),
  order_line_id bigint references supply_order_line (id),
  transfer_key varchar(36),
  reverses_id bigint references stock_movement (id),
  happened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  late_reason varchar(500),
  staff_id bigint,
  staff_name varchar(200) not null,
  constraint stock_movement_ref unique (ref),
  constraint stock_movement_reversed_once unique (reverses_id),
  constraint stock_movement_moves check (packs <> 0)
);
create index stock_movement_lot on stock_movement (lot_id, location_id, happened_at);
create index stock_movement_type on stock_movement (location_id, pad_type_id, happened_at);
create index stock_movement_time on stock_movement (location_id, happened_at);
create index stock_movement_loan on stock_movement (loan_id);
create index stock_movement_patient on stock_movement (patient_id);
create index stock_movement_order_line on stock_movement (order_line_id);
create index stock_movement_transfer on stock_movement (transfer_key);

-- The pads one patient uses, from the opening of their pouch until they are thrown away.
create sequence pad_set_seq start with 1 increment by 50;
create table pad_set (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  patient_id bigint not null references patient (id),
  program_id bigint,
  location_id bigint not null references location (id),
  pad_type_id bigint not null references pad_type (id),
  lot_id bigint references pad_lot (id),
  pads integer not null,
  placement varchar(120),
  opened_on date not null,
  uses integer not null,
  outcome varchar(16),
  closed_on date,
  discard_reason varchar(300),
  constraint pad_set_ref unique (ref),
  constraint pad_set_pads check (pads between 1 and 1000),
  constraint pad_set_uses check (uses >= 0)
);
create index pad_set_patient on pad_set (patient_id);
create index pad_set_program on pad_set (program_id, outcome);
create index pad_set_location on pad_set (location_id);
create index pad_set_lot on pad_set (lot_id);
create index pad_set_type on pad_set (pad_type_id, outcome);

create sequence stock_count_seq start with 1 increment by 50;
create table stock_count (
  id bigint primary key,
  lot_id bigint not null references pad_lot (id),
  location_id bigint not null references location (id),
  counted integer not null,
  expected integer not null,
  reason varchar(300),
  movement_id bigint references stock_movement (id),
  happened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  staff_name varchar(200) not null,
  constraint stock_count_counted check (counted >= 0)
);
create index stock_count_lot on stock_count (lot_id, location_id);
create index stock_count_location on stock_count (location_id, happened_at);
