using System.Security.Cryptography;
using System.Text;

namespace MitigationOffice.Business.Data;

/// <summary>The secret in a public link: 32 random bytes shown once as base64url; only its SHA-256 is stored.</summary>
public static class PrivateLink
{
    public static (string Token, string Hash) Make()
    {
        var token = Convert.ToBase64String(RandomNumberGenerator.GetBytes(32))
            .TrimEnd('=').Replace('+', '-').Replace('/', '_');
        return (token, HashOf(token));
    }

    public static string HashOf(string token) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(token)));
}
