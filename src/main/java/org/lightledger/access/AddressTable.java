package org.lightledger.access;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;

/**
 * Gives each address one of a fixed number of cells, so that counting addresses takes the same
 * memory however many there are. Two addresses may share a cell and then share its limit; which
 * ones do is decided by a secret, so that nobody can choose to meet somebody else's.
 */
final class AddressTable {
  /** Own choice: 4096 cells, some tens of kilobytes for each limit. */
  static final int CELLS = 4096;

  private final byte[] secret = new byte[16];

  AddressTable() {
    new SecureRandom().nextBytes(secret);
  }

  /** The cell of an address, in [0, CELLS). */
  int cell(String address) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      digest.update(secret);
      byte[] hash = digest.digest(address.getBytes(StandardCharsets.UTF_8));
      return Math.floorMod(ByteBuffer.wrap(hash).getInt(), CELLS);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }
}
