package org.lightledger.studio;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Client;
import org.lightledger.store.Ledger;

/**
 * All that is held about a client, to hand over: a ZIP with one JSON document, which has the
 * ledger's rows table by table, and the pictures that the client sent. Nothing of another client is
 * in it.
 */
public final class ClientArchive {
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private ClientArchive() {}

  /**
   * Writes the ZIP.
   *
   * @param ledger the ledger
   * @param clientId the ledger's number of the client
   * @param out where to; it is not closed
   * @throws IOException when it can not be written
   * @throws IllegalArgumentException when there is no such client
   */
  public static void write(Ledger ledger, long clientId, OutputStream out) throws IOException {
    record Held(
        Client client,
        Map<String, List<Map<String, @Nullable Object>>> rows,
        Map<String, byte[]> pictures) {}
    Held held =
        ledger.read(
            session ->
                new Held(
                    session
                        .clients()
                        .find(clientId)
                        .orElseThrow(
                            () ->
                                new IllegalArgumentException(
                                    "expected the number of a client, found "
                                        + clientId
                                        + ", which the ledger does not have")),
                    session.clientRecords().all(clientId),
                    session.clientRecords().pictures(clientId)));
    Map<String, Object> document = new LinkedHashMap<>();
    document.put("format", "lightledger-client");
    document.put("version", 1);
    document.put("client", held.client().name());
    document.put("tables", held.rows());
    ZipOutputStream zip = new ZipOutputStream(out, StandardCharsets.UTF_8);
    zip.putNextEntry(new ZipEntry("client.json"));
    zip.write(JSON.writeValueAsBytes(document));
    zip.closeEntry();
    for (Map.Entry<String, byte[]> picture : held.pictures().entrySet()) {
      zip.putNextEntry(new ZipEntry(picture.getKey()));
      zip.write(picture.getValue());
      zip.closeEntry();
    }
    zip.finish();
  }
}
