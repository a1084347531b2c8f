-- A count goes on for a while, spot by spot, and packs leave meanwhile; drawers by the treatment tables have a level to fill up to.
create sequence count_round_seq start with 1 increment by 50;
create table count_round (
  id bigint primary key,
  version integer not null,
  location_id bigint not null references location (id),
  open_location_id bigint,
  started_at timestamp(6) with time zone not null,
  closed_at timestamp(6) with time zone,
  started_by varchar(200) not null,
  constraint count_round_one_open unique (open_location_id)
);
create index count_round_location on count_round (location_id, started_at);

create sequence count_line_seq start with 1 increment by 50;
create table count_line (
  id bigint primary key,
  version integer not null,
  round_id bigint not null references count_round (id),
  spot varchar(80) not null,
  lot_id bigint not null references pad_lot (id),
  packs integer not null,
  counted_at timestamp(6) with time zone not null,
  constraint count_line_once unique (round_id, spot, lot_id),
  constraint count_line_packs check (packs >= 0)
);

create sequence treatment_drawer_seq start with 1 increment by 50;
create table treatment_drawer (
  id bigint primary key,
  version integer not null,
  location_id bigint not null references location (id),
  name varchar(80) not null,
  pad_type_id bigint not null references pad_type (id),
  fill_to integer not null,
  packs integer not null,
  constraint treatment_drawer_once unique (location_id, name, pad_type_id),
  constraint treatment_drawer_packs check (packs >= 0 and fill_to >= 0)
);
