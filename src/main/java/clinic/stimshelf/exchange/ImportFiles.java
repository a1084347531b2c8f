package clinic.stimshelf.exchange;

import io.quarkus.hibernate.orm.panache.PanacheRepository;
import jakarta.enterprise.context.ApplicationScoped;

@ApplicationScoped
class ImportFiles implements PanacheRepository<ImportFile> {}
