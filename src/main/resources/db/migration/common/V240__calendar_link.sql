-- Secret addresses under which a therapist's calendar program reads their appointments.

create sequence calendar_link_seq start with 1 increment by 50;
create table calendar_link (
  id bigint primary key,
  version integer not null,
  staff_id bigint not null references staff (id),
  words varchar(80) not null,
  secret_hash varchar(64) not null,
  made_at timestamp(6) with time zone not null,
  last_read_at timestamp(6) with time zone,
  revoked_at timestamp(6) with time zone,
  constraint calendar_link_secret unique (secret_hash)
);
create index calendar_link_staff on calendar_link (staff_id);
