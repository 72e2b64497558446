namespace MitigationOffice.Business.Design;

public static class RevisionLetters
{
    /// <summary>"A" after nothing, "B" after "A", "AA" after "Z".</summary>
    public static string After(string? last)
    {
        if (string.IsNullOrEmpty(last)) return "A";
        var letters = last.ToCharArray();
        for (var i = letters.Length - 1; i >= 0; i--)
        {
            if (letters[i] != 'Z')
            {
                letters[i]++;
                return new string(letters);
            }

            letters[i] = 'A';
        }

        return "A" + new string(letters);
    }
}
