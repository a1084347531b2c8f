-- What was said when somebody was called.

create sequence contact_seq start with 1 increment by 50;
create table contact (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  location_id bigint not null references location (id),
  patient_id bigint not null references patient (id),
  loan_id bigint references loan (id),
  outcome varchar(32) not null,
  promised_on date,
  note varchar(500),
  happened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  by_name varchar(200) not null,
  constraint contact_ref unique (ref)
);
create index contact_location on contact (location_id, happened_at);
create index contact_patient on contact (patient_id, happened_at);
create index contact_loan on contact (loan_id, happened_at);
