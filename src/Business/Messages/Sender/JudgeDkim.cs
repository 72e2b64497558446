using System.Security.Cryptography;

namespace MitigationOffice.Business.Messages.Sender;

/// <summary>Reads a DKIM key record (RFC 6376 section 3.6.1) and says what is right and what to change.</summary>
public static class JudgeDkim
{
    public static IReadOnlyList<Finding> Of(string record)
    {
        var text = TagList.Joined(record);
        if (text.Length == 0) return [new(Stands.Change, "There is no DKIM key under this selector. Your mail provider gives you the selector and the key; add them as a text record under selector._domainkey.", "RFC 6376 section 3.6.2.1")];
        if (TagList.Read(text) is not { } tags || !tags.ContainsKey("p")) return [new(Stands.Change, "This is not a DKIM key: there is no p= part, or a part stands in it twice. Copy the record again from your provider.", "RFC 6376 section 3.6.1")];
        return [.. Judge(text, tags)];
    }

    private static IEnumerable<Finding> Judge(string text, IReadOnlyDictionary<string, string> tags)
    {
        if (tags.TryGetValue("v", out var version) && (version != "DKIM1" || !text.TrimStart().StartsWith("v", StringComparison.OrdinalIgnoreCase)))
            yield return new(Stands.Change, "v= must be DKIM1 and stand first.", "RFC 6376 section 3.6.1");
        yield return Key(tags);
        if (tags.TryGetValue("h", out var hashes) && !hashes.Split(':').Any(h => h.Trim() == "sha256")) yield return new(Stands.Change, "h= must allow sha256.", "RFC 6376 section 3.3");
        if (tags.TryGetValue("s", out var services) && !services.Split(':').Any(s => s.Trim() is "*" or "email")) yield return new(Stands.Change, "s= does not allow e-mail.", "RFC 6376 section 3.6.1");
        var flags = tags.GetValueOrDefault("t", "").Split(':').Select(f => f.Trim()).ToList();
        if (flags.Contains("y")) yield return new(Stands.Look, "t=y says that you are only testing; receivers may treat your mail as if it were not signed. Take it out when all works.", "RFC 6376 section 3.6.1");
        if (flags.Contains("s")) yield return new(Stands.Look, "t=s: only this very domain may be signed for, none below it.", "RFC 6376 section 3.6.1");
    }

    private static Finding Key(IReadOnlyDictionary<string, string> tags)
    {
        var (kind, key) = (tags.GetValueOrDefault("k", "rsa"), tags["p"].Replace(" ", "", StringComparison.Ordinal));
        if (key.Length == 0) return new(Stands.Change, "p= is empty: this key was taken back. Ask your provider for the selector in use now.", "RFC 6376 section 3.6.1");
        var bytes = new byte[key.Length];
        if (!Convert.TryFromBase64String(key, bytes, out var length)) return new(Stands.Change, "The key in p= is damaged: it is not base64. Copy the record again, whole.", "RFC 6376 section 3.6.1");
        if (kind == "ed25519") return length == 32 ? new(Stands.Right, "The key is Ed25519. Not every receiver knows it: keep an RSA key beside it.", "RFC 8463 section 3") : new(Stands.Change, "An Ed25519 key has 32 bytes; this one does not.", "RFC 8463 section 4.2");
        if (kind != "rsa") return new(Stands.Change, $"k={kind} is not a kind of key that receivers know; use rsa.", "RFC 6376 section 3.3");
        return RsaBits(bytes.AsSpan(0, length)) switch
        {
            0 => new(Stands.Change, "The key in p= is damaged or cut off. Copy the record again, whole.", "RFC 6376 section 3.6.1"),
            < 1024 => new(Stands.Change, "The key is shorter than 1024 bits; receivers take it for no signature. Have a key of 2048 bits made.", "RFC 8301 section 3.2"),
            < 2048 and var bits => new(Stands.Look, $"The key has {bits} bits. That works; 2048 is advised.", "RFC 8301 section 3.2"),
            var bits => new(Stands.Right, $"The key is RSA with {bits} bits.", "RFC 8301 section 3.2"),
        };
    }

    private static int RsaBits(ReadOnlySpan<byte> key)
    {
        using var rsa = RSA.Create();
        try
        {
            rsa.ImportSubjectPublicKeyInfo(key, out _);
            return rsa.KeySize;
        }
        catch (CryptographicException)
        {
            try
            {
                rsa.ImportRSAPublicKey(key, out _);
                return rsa.KeySize;
            }
            catch (CryptographicException)
            {
                return 0;
            }
        }
    }
}
