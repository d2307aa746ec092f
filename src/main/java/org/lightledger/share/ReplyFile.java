package org.lightledger.share;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.spot.Trait;

/**
 * The small file by which a client's choices come back from a page that needs no server. It is JSON
 * in UTF-8:
 *
 * <pre>
 * {"format": "lightledger-reply", "version": 1,
 *  "share": "16 digits that name the share",
 *  "reply": "the reply, itself JSON, as one text",
 *  "signature": "64 digits: HMAC-SHA-256 of the reply's text with the share's secret"}
 * </pre>
 *
 * and the reply is
 *
 * <pre>
 * {"favourites": ["spot"], "comments": {"spot": "words"}, "words": "words on all",
 *  "answers": {"question": {"words": "words", "places": ["water"]}},
 *  "changed": {"favourites": ["spot"], "comments": ["spot"], "words": true},
 *  "saved": "2026-11-30T10:15:30.000Z"}
 * </pre>
 *
 * where spots and questions go by the names that {@link ShareKeys} gives them, and questions whose
 * answer was left as the page showed it are left out. What else was changed on the page stands in
 * "changed", and all that is not in there stays as it is; "saved" is when the file was made, in
 * UTC, so that an older one is known. Pages that were made before have neither: then all of the
 * spots counts. The reply is kept as a text inside of the file so that its signature depends on no
 * way of writing JSON.
 *
 * @param keyId which share it names
 * @param text the reply's text
 * @param signature what it says is its signature
 */
public record ReplyFile(String keyId, String text, String signature) {
  /** The largest file that is read, bytes: own choice, some ten times what a full page gives. */
  public static final int MOST_BYTES = 512 * 1024;

  /** What its first field says. */
  public static final String FORMAT = "lightledger-reply";

  /** The version that is written and read. */
  public static final int VERSION = 1;

  private static final int MOST_ENTRIES = 500;
  private static final int DEEPEST = 8;
  private static final ObjectMapper JSON =
      JsonMapper.builder(
              JsonFactory.builder()
                  .streamReadConstraints(
                      StreamReadConstraints.builder()
                          .maxNestingDepth(DEEPEST)
                          .maxStringLength(MOST_BYTES)
                          .build())
                  .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                  .build())
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .build();

  /**
   * Reads a file, without believing it: see {@link #reply}.
   *
   * @param content its text
   * @return what it claims
   * @throws IllegalArgumentException naming what was found, expected, and what to do
   */
  public static ReplyFile parse(String content) {
    JsonNode root = json(content, "the file that a client's page saved");
    if (!FORMAT.equals(root.path("format").asText())) {
      throw new IllegalArgumentException(
          "expected the file that a client's page saved, found another one; ask the client for the"
              + " file whose name starts with \"reply\"");
    }
    if (root.path("version").asInt() != VERSION) {
      throw new IllegalArgumentException(
          "expected a reply of version "
              + VERSION
              + ", found version "
              + shortened(root.path("version").asText())
              + "; take it in with the Lightledger that made the page");
    }
    return new ReplyFile(
        root.path("share").asText(), root.path("reply").asText(), root.path("signature").asText());
  }

  /**
   * Writes a file, as the client's page does.
   *
   * @param keys the share's keys
   * @param reply the reply's text
   * @return the file's text
   */
  public static String write(ShareKeys keys, String reply) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("format", FORMAT);
    fields.put("version", VERSION);
    fields.put("share", keys.keyId());
    fields.put("reply", reply);
    fields.put("signature", keys.mac(reply));
    try {
      return JSON.writeValueAsString(fields);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("texts and numbers can always be written", e);
    }
  }

  /**
   * The reply, once its signature is found right.
   *
   * @param keys the keys of the share that the file names
   * @return the reply
   * @throws IllegalArgumentException when the signature is not the share's, or the reply is none
   */
  public Reply reply(ShareKeys keys) {
    if (!keys.signed(text, signature)) {
      throw new IllegalArgumentException(
          "expected the reply as the client's page signed it, found one that was changed since or"
              + " belongs to another share; ask the client to save and send it again");
    }
    JsonNode reply = json(text, "a client's reply");
    Set<String> favourites = new HashSet<>(texts(reply.path("favourites")));
    Map<String, Said> comments = comments(reply.path("comments"));
    Said words = Said.anew(words(reply.path("words")));
    Map<String, Reply.Answered> answers = answers(reply.path("answers"));
    Instant savedAt = savedAt(reply.path("saved"));
    JsonNode changed = reply.path("changed");
    if (!changed.isObject()) {
      Ticks<String> marks = new Ticks<>(Set.of(), favourites);
      return new Reply(marks, comments, words, answers, savedAt, true);
    }
    return new Reply(
        changes(favourites, texts(changed.path("favourites"))),
        changes(comments, texts(changed.path("comments"))),
        changed.path("words").asBoolean() ? words : Said.nothing(),
        answers,
        savedAt,
        false);
  }

  private static Ticks<String> changes(Set<String> ticked, List<String> changed) {
    Set<String> set = new HashSet<>(changed);
    set.retainAll(ticked);
    Set<String> cleared = new HashSet<>(changed);
    cleared.removeAll(ticked);
    return new Ticks<>(cleared, set);
  }

  /** A comment that was changed and is not there was emptied. */
  private static Map<String, Said> changes(Map<String, Said> comments, List<String> changed) {
    Map<String, Said> changes = new LinkedHashMap<>();
    changed.forEach(spot -> changes.put(spot, comments.getOrDefault(spot, Said.anew(""))));
    return changes;
  }

  private static @Nullable Instant savedAt(JsonNode node) {
    try {
      return node.isMissingNode() ? null : Instant.parse(node.asText());
    } catch (DateTimeException e) {
      throw new IllegalArgumentException(
          "expected a reply that tells when it was saved such as 2026-11-30T10:15:30Z, found \""
              + shortened(node.asText())
              + "\"; ask the client to save and send it again",
          e);
    }
  }

  private static Map<String, Said> comments(JsonNode node) {
    Map<String, Said> comments = new LinkedHashMap<>();
    bounded(node)
        .fields()
        .forEachRemaining(e -> comments.put(e.getKey(), Said.anew(words(e.getValue()))));
    return comments;
  }

  private static Map<String, Reply.Answered> answers(JsonNode node) {
    Map<String, Reply.Answered> answers = new LinkedHashMap<>();
    bounded(node)
        .fields()
        .forEachRemaining(
            field -> {
              Set<Trait> places = EnumSet.noneOf(Trait.class);
              texts(field.getValue().path("places")).forEach(code -> places.add(Trait.parse(code)));
              answers.put(
                  field.getKey(),
                  Reply.Answered.anew(words(field.getValue().path("words")), places));
            });
    return answers;
  }

  private static List<String> texts(JsonNode node) {
    List<String> texts = new ArrayList<>();
    bounded(node).forEach(one -> texts.add(one.asText()));
    return texts;
  }

  private static String words(JsonNode node) {
    return node.asText("").strip().replace("\r\n", "\n");
  }

  private static JsonNode bounded(JsonNode node) {
    if (node.size() > MOST_ENTRIES) {
      throw new IllegalArgumentException(
          "expected a reply about at most " + MOST_ENTRIES + " things, found " + node.size());
    }
    return node;
  }

  private static JsonNode json(String text, String what) {
    if (text.length() > MOST_BYTES) {
      throw new IllegalArgumentException(
          "expected " + what + " of at most " + MOST_BYTES + " characters, found more");
    }
    try {
      JsonNode node = JSON.readTree(text);
      if (node.isObject()) {
        return node;
      }
    } catch (JsonProcessingException e) {
      throw noJson(what, e);
    }
    throw noJson(what, null);
  }

  private static IllegalArgumentException noJson(String what, @Nullable Exception cause) {
    return new IllegalArgumentException(
        "expected "
            + what
            + ", found something that is no JSON object; ask the client for it again",
        cause);
  }

  private static String shortened(String text) {
    return text.length() > 20 ? text.substring(0, 20) + "…" : text;
  }
}
