-- What a set was rated for when it was opened: a later rating does not change what was wasted or worn early.
alter table pad_set add column rated_uses integer;
update pad_set set rated_uses = (select t.rated_uses from pad_type t where t.id = pad_set.pad_type_id);
alter table pad_set alter column rated_uses set not null;
