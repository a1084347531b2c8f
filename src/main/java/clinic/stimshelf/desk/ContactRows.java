package clinic.stimshelf.desk;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class ContactRows implements PanacheRepository<Contact> {}
