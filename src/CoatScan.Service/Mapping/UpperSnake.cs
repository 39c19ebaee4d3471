using System.Text;

namespace CoatScan.Service.Mapping;

/// <summary>Names of our open lists on the wire: upper snake case of the name in code.</summary>
internal static class UpperSnake
{
    public static string Of<T>(T value)
        where T : struct, Enum
    {
        var name = value.ToString();
        var text = new StringBuilder(name.Length + 8);
        for (var i = 0; i < name.Length; i++)
        {
            if (i > 0 && char.IsUpper(name[i]))
            {
                text.Append('_');
            }

            text.Append(char.ToUpperInvariant(name[i]));
        }

        return text.ToString();
    }
}
