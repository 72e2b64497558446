using System.Reflection;
using System.Reflection.Emit;

namespace MitigationOffice.Business.Tests.Structure;

/// <summary>Walks compiled code (ECMA-335, partition III) and yields the types, methods and fields it names.</summary>
internal static class Intermediate
{
    private static readonly Dictionary<short, OpCode> Known = typeof(OpCodes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(f => (OpCode)f.GetValue(null)!).ToDictionary(o => o.Value);

    public static IEnumerable<int> Tokens(byte[] code)
    {
        for (var at = 0; at < code.Length;)
        {
            var first = code[at++];
            var instruction = Known[first == 0xFE ? unchecked((short)(0xFE00 | code[at++])) : first];
            if (instruction.OperandType is OperandType.InlineMethod or OperandType.InlineField or OperandType.InlineType or OperandType.InlineTok)
                yield return BitConverter.ToInt32(code, at);
            at += Size(instruction.OperandType, code, at);
        }
    }

    private static int Size(OperandType operand, byte[] code, int at) => operand switch
    {
        OperandType.InlineNone => 0,
        OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
        OperandType.InlineVar => 2,
        OperandType.InlineI8 or OperandType.InlineR => 8,
        OperandType.InlineSwitch => 4 + 4 * BitConverter.ToInt32(code, at),
        _ => 4,
    };
}
