-- Recalls. Who had it is no column of these: it is read from loans, treatments and the ledger.

create sequence recall_seq start with 1 increment by 50;
create table recall (
  id bigint primary key,
  version integer not null,
  target varchar(16) not null,
  lot_id bigint references pad_lot (id),
  kind_id bigint references unit_kind (id),
  serial_from varchar(64),
  serial_to varchar(64),
  unit_id bigint references unit (id),
  reason varchar(200) not null,
  reference varchar(120),
  begun_at timestamp(6) with time zone not null,
  begun_by varchar(200) not null,
  drawers_done_at timestamp(6) with time zone,
  drawers_done_by varchar(200),
  drawers_words varchar(300),
  state varchar(16) not null,
  closed_at timestamp(6) with time zone,
  closed_by varchar(200),
  closed_words varchar(500)
);
create index recall_state on recall (state, begun_at);
create index recall_lot on recall (lot_id);
create index recall_kind on recall (kind_id);
create index recall_unit on recall (unit_id);

-- Each attempt to reach somebody, and what came of it: the proof. Only added to.
create sequence recall_contact_seq start with 1 increment by 50;
create table recall_contact (
  id bigint primary key,
  recall_id bigint not null references recall (id),
  patient_id bigint not null references patient (id),
  outcome varchar(16) not null,
  spoke_with varchar(120),
  proof varchar(120),
  note varchar(500),
  happened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  late_reason varchar(500),
  by_name varchar(200) not null
);
create index recall_contact_recall on recall_contact (recall_id, patient_id);
create index recall_contact_patient on recall_contact (patient_id);

-- Why somebody who was not reached is left at that.
create sequence recall_excuse_seq start with 1 increment by 50;
create table recall_excuse (
  id bigint primary key,
  recall_id bigint not null references recall (id),
  patient_id bigint not null references patient (id),
  reason varchar(500) not null,
  recorded_at timestamp(6) with time zone not null,
  by_name varchar(200) not null,
  constraint recall_excuse_once unique (recall_id, patient_id)
);
create index recall_excuse_patient on recall_excuse (patient_id);
