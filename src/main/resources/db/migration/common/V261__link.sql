-- What patients report on their own page, and who answered.

create sequence report_seq start with 1 increment by 50;
create table report (
  id bigint primary key,
  version integer not null,
  location_id bigint not null references location (id),
  patient_id bigint not null references patient (id),
  loan_id bigint not null references loan (id),
  program_id bigint not null references program (id),
  kind varchar(16) not null,
  reported_at timestamp(6) with time zone not null,
  -- True until somebody answered; what needs no answer is never open.
  open boolean not null,
  answered_at timestamp(6) with time zone,
  answered_by varchar(200),
  answer varchar(500)
);
create index report_open on report (location_id, open);
create index report_loan on report (loan_id, reported_at);
